//! scratch
use wainwright_analysis::{assess, catalogue};
use wainwright_model::*;
use wainwright_rules::*;
fn main() {
    let f = std::env::args().nth(1).unwrap();
    let text = std::fs::read_to_string(f).unwrap();
    let p = parse(&text, catalogue()).project;
    let a = assess(&p);
    let before = judge(&p, &a);
    println!("before {}", before.len());
    for f in &before {
        if f.rule == "overheated-conductor" || f.rule == "fuse-run-hard" {
            println!("{} {:?} {}", f.key(), f.severity, f.headline);
        }
    }
    for ins in ["gpt", "boat-105"] {
        for s in ["2 AWG", "1 AWG", "1/0 AWG", "2/0 AWG", "3/0 AWG", "4/0 AWG"] {
            let set = |k: &str, v: &str| Edit::Set {
                path: vec!["wire".into(), "inverter-plus".into(), k.into()],
                value: Value::Text(v.into()),
            };
            let mut e = vec![set("size", s)];
            if ins != "gpt" {
                e.push(set("insulation", ins));
            }
            let t = apply(&text, &e).unwrap().text;
            let p = parse(&t, catalogue()).project;
            let a = assess(&p);
            let n = judge(&p, &a);
            println!(
                "== {ins} {s}: gone {} bears {:.0}",
                !n.iter()
                    .any(|f| f.key() == "overheated-conductor:wire.inverter-plus"),
                a.wire("inverter-plus").unwrap().ampacity.in_force.amperes()
            );
            for f in &n {
                match before.iter().find(|b| b.key() == f.key()) {
                    None => println!("   NEW {} {:?} {}", f.key(), f.severity, f.headline),
                    Some(b) => {
                        if b.margin != f.margin {
                            let m = |x: &Finding| {
                                x.margin.map(|m| (m.fraction() * 1000.).round() / 1000.)
                            };
                            if m(b) > m(f) {
                                println!("   worse {} {:?}->{:?}", f.key(), m(b), m(f));
                            }
                        }
                    }
                }
            }
        }
    }
}

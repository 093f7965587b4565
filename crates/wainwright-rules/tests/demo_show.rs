mod support;
use support::*;
#[test]
fn show() {
    let path = std::env::var("DEMO").unwrap();
    let text = std::fs::read_to_string(path).unwrap();
    let s = Story::unfinished(&text);
    for f in &s.findings {
        println!(
            "{} {} [{:.2}]\n    {}",
            f.severity,
            f.key(),
            f.margin.map_or(0.0, |m| m.fraction()),
            f.headline
        );
        for d in &f.detail {
            println!("      - {d}");
        }
    }
    let t = std::time::Instant::now();
    let mut n = 0;
    for f in &s.findings {
        println!("== {}", f.key());
        let t = std::time::Instant::now();
        for x in s.fixes(f) {
            n += 1;
            println!(
                "   {:.1} {} | mends {:?} brings {:?}",
                x.cost,
                x.title,
                x.mends,
                x.brings.iter().map(|b| b.key()).collect::<Vec<_>>()
            );
        }
        println!("     ({:?})", t.elapsed());
    }
    println!("{n} fixes in {:?}", t.elapsed());
    let t = std::time::Instant::now();
    for _ in 0..5 {
        wainwright_analysis::assess(&s.project);
    }
    println!("assess {:?}", t.elapsed() / 5);
    let t = std::time::Instant::now();
    for _ in 0..20 {
        wainwright_rules::judge(&s.project, &s.assessment);
    }
    println!("judge {:?}", t.elapsed() / 20);
}

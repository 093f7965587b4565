//! What is bought for a small project, counted by hand.

use super::routes::{METRIC, US};
use super::{close, read};
use wainwright_analysis::result::{Amount, AskedFor, Line, TakeOff, Thing};
use wainwright_analysis::{assess, schedules, takeoff};
use wainwright_model::FuseFamily;
use wainwright_reference::lug::Stud;

fn count(text: &str) -> TakeOff {
    let project = read(text);
    takeoff(&project, &assess(&project))
}

fn wires(found: &TakeOff) -> Vec<&Line> {
    let lines = found.lines.iter();
    lines
        .filter(|line| matches!(line.thing, Thing::Wire { .. }))
        .collect()
}

fn metres(amount: Amount) -> f64 {
    match amount {
        Amount::Length(length) => length.metres(),
        Amount::Pieces(pieces) => panic!("{pieces} pieces"),
    }
}

fn pieces(found: &TakeOff, wanted: impl Fn(&Thing) -> bool) -> (u32, u32) {
    let mut lines = found.lines.iter().filter(|line| wanted(&line.thing));
    match lines.next().map(|line| (line.needed, line.buy)) {
        Some((Amount::Pieces(needed), Amount::Pieces(buy))) => (needed, buy),
        other => panic!("{other:?}"),
    }
}

/// A block with three fuses, two of them alike, and a single one.
const BLOCK: &str = r#"
[item.block]
kind = "fuse-block"
label = "Fuse block"
fuses = ["10 A", "10 A", "", "15 A"]
[item.main]
kind = "fuse"
family = "anl"
rating = "100 A"
[wire.feed]
from = "bat.+"
to = "main.in"
size = "25 mm2"
insulation = "gxl"
length = "0.4 m"
[wire.feed-2]
from = "main.out"
to = "block.in"
like = "feed"
[wire.fan-plus]
from = "block.1"
to = "fan.+"
size = "2.5 mm2"
insulation = "gxl"
length = "3 m"
[wire.fan-minus]
from = "fan.-"
to = "bat.-"
like = "fan-plus"
[item.fan]
kind = "load"
label = "Fan"
current = "2 A"
"#;

#[test]
fn wire_is_bought_by_the_metre_with_waste() {
    let found = count(METRIC);
    let wires = wires(&found);
    // Red and yellow: plus and minus are two things, each 4.025 m and a tenth.
    assert_eq!(wires.len(), 2);
    for line in wires {
        close(metres(line.needed), 4.025, 1e-9);
        close(metres(line.more), 0.4025, 1e-9);
        close(metres(line.buy), 5.0, 1e-9);
        assert_eq!(line.uses.len(), 1);
    }
}

#[test]
fn wire_is_bought_by_the_foot_where_feet_are_used() {
    let found = count(US);
    let lines = wires(&found);
    // 15 ft typed and a tenth: 16.5 ft, so 17.
    let minus = lines
        .iter()
        .find(|line| line.uses[0].of.1 == *"minus")
        .unwrap();
    close(metres(minus.buy) / 0.3048, 17.0, 1e-9);
}

#[test]
fn what_is_in_the_shed_is_cut_first() {
    let shed = "[stock.offcut]\nof = \"wire\"\nsize = \"2.5 mm2\"\ncount = 2\nlength = \"4.1 m\"\ncolour = \"red\"\nprice = 1.5\n";
    let found = count(&format!("{METRIC}{shed}"));
    let lines = wires(&found);
    let red = lines
        .iter()
        .find(|line| line.uses[0].of.1 == *"plus")
        .unwrap();
    close(metres(red.owned), 4.025, 1e-9);
    close(metres(red.buy), 0.0, 1e-9);
    let cuts = red.cuts.as_ref().unwrap();
    assert!(cuts.proven && cuts.rest.is_empty());
    close(cuts.pieces[0].left.metres(), 0.075, 1e-9);
    let yellow = lines
        .iter()
        .find(|line| line.uses[0].of.1 == *"minus")
        .unwrap();
    close(metres(yellow.buy), 5.0, 1e-9);
    assert_eq!(yellow.price, None, "the price is that of red wire");
    close(red.cost.unwrap(), 0.0, 1e-12);
}

#[test]
fn cuts_that_fit_no_whole_piece_are_proven_and_others_are_not() {
    let shed = |length: &str| {
        format!("{METRIC}[stock.a]\nof = \"wire\"\nsize = \"2.5 mm2\"\nlength = \"{length}\"\n")
    };
    // Without a colour it is for both; 5 m hold one of two cuts of 4.025 m.
    let found = count(&shed("5 m"));
    let unproven = wires(&found)
        .iter()
        .filter(|l| !l.cuts.as_ref().unwrap().proven)
        .count();
    assert_eq!(unproven, 1, "the piece was long enough, but in use");
    let found = count(&shed("4 m"));
    assert!(
        wires(&found)
            .iter()
            .all(|line| line.cuts.as_ref().unwrap().proven)
    );
    assert!(wires(&found).iter().all(|line| metres(line.owned) == 0.0));
}

#[test]
fn fuses_come_with_spares_and_holders() {
    let found = count(&format!("{METRIC}{BLOCK}"));
    let fuse = |family: FuseFamily, amps: f64| {
        let line = found.lines.iter().find(|line| match line.thing {
            Thing::Fuse {
                family: own,
                rating,
            } => own == family && (rating.amperes() - amps).abs() < 1e-9,
            _ => false,
        });
        line.map(|line| (line.needed, line.more, line.buy)).unwrap()
    };
    let three = |a, b, c| (Amount::Pieces(a), Amount::Pieces(b), Amount::Pieces(c));
    // A quarter of two is one; at least one.
    assert_eq!(fuse(FuseFamily::Blade, 10.0), three(2, 1, 3));
    assert_eq!(fuse(FuseFamily::Blade, 15.0), three(1, 1, 2));
    assert_eq!(fuse(FuseFamily::Anl, 100.0), three(1, 1, 2));
    let holders = pieces(&found, |thing| {
        matches!(
            thing,
            Thing::Holder {
                family: FuseFamily::Anl,
                name: Some(_),
                ..
            }
        )
    });
    assert_eq!(holders, (1, 1));
    let owned = "[stock.fuses]\nof = \"fuse\"\nfamily = \"blade\"\nrating = \"10 A\"\ncount = 2\n";
    let found = count(&format!("{METRIC}{BLOCK}{owned}"));
    let tens = pieces(
        &found,
        |thing| matches!(thing, Thing::Fuse { rating, .. } if rating.amperes() == 10.0),
    );
    assert_eq!(tens, (2, 1));
}

#[test]
fn lugs_are_counted_by_wire_and_stud() {
    let found = count(&format!("{METRIC}{BLOCK}"));
    // 25 mm²: battery and both sides of the ANL fuse on M8; the block's inlet on M5
    // is too thin for it, and is asked about.
    let thick = |stud: Stud| {
        move |thing: &Thing| match thing {
            Thing::Lug { size, stud: own } => size.to_string().contains("25") && *own == stud,
            _ => false,
        }
    };
    assert_eq!(pieces(&found, thick(Stud::M8)).0, 3);
    assert!(!found.lines.iter().any(|line| thick(Stud::M5)(&line.thing)));
    let asked: Vec<&[String]> = found
        .asked
        .iter()
        .filter(|asked| asked.why == AskedFor::Lug)
        .map(|asked| asked.path.as_slice())
        .collect();
    assert_eq!(asked, [["wire", "feed-2", "to"]]);
}

#[test]
fn what_cannot_be_counted_is_asked_for() {
    let text = "wainwright = 1\n[item.a]\nkind = \"load\"\n[item.b]\nkind = \"fuse\"\n\
                [wire.w]\nfrom = \"a.+\"\nto = \"b.in\"\n[wire.v]\nfrom = \"a.-\"\nto = \"b.out\"\nsize = \"12 AWG\"\n";
    let found = count(text);
    let why: Vec<AskedFor> = found.asked.iter().map(|asked| asked.why).collect();
    for wanted in [AskedFor::Size, AskedFor::Length, AskedFor::Rating] {
        assert!(why.contains(&wanted), "{wanted:?} is not in {why:?}");
    }
    assert!(wires(&found).is_empty());
}

#[test]
fn clips_and_grommets_follow_the_routes() {
    let found = count(METRIC);
    // 1600 of trunk at 450: four spaces, five clips. Off the trunk each place
    // once: 1600 has four spaces, three clips between; 300 has none.
    assert_eq!(pieces(&found, |thing| *thing == Thing::Clip).0, 8);
    assert_eq!(pieces(&found, |thing| *thing == Thing::CableTie).0, 4);
    // Both wires go in and out of the cavity at the same two places.
    assert_eq!(pieces(&found, |thing| *thing == Thing::Grommet).0, 2);
    assert_eq!(pieces(&found, |thing| *thing == Thing::Label).0, 4);
}

#[test]
fn prices_add_up() {
    let prices = "[stock.red]\nof = \"wire\"\nsize = \"2.5 mm2\"\nprice = 2.0\n[stock.clip]\nof = \"other\"\ncount = 3\nprice = 0.5\n";
    let found = count(&format!("{METRIC}{prices}"));
    // Twice 5 m at 2.0, and 8 clips of which 3 are there.
    close(found.cost, 2.0 * 5.0 * 2.0 + 5.0 * 0.5, 1e-9);
    assert!(found.unpriced > 0);
}

#[test]
fn labels_say_the_circuit_and_where_the_other_end_goes() {
    let project = read(&format!("{METRIC}{BLOCK}"));
    let found = schedules(&project, &assess(&project));
    let entry = |id: &str| found.wires.iter().find(|wire| wire.wire == *id).unwrap();
    let fan = entry("fan-plus");
    assert_eq!((fan.label.text.as_str(), fan.label.proposed), ("A1+", true));
    assert_eq!(fan.from.label_lines, ["A1+", "Fan +"]);
    assert_eq!(fan.to.label_lines, ["A1+", "Fuse block 1"]);
    assert_eq!(entry("fan-minus").label.text, "A1-");
    assert_eq!(entry("plus").label.text, "M1+");
    assert_eq!(entry("minus").label.text, "M1-");
    let mut labels: Vec<&str> = found.wires.iter().map(|w| w.label.text.as_str()).collect();
    labels.sort_unstable();
    labels.dedup();
    assert_eq!(labels.len(), found.wires.len(), "every label once");
    let typed = METRIC.replace(
        "insulation = \"gxl\"",
        "insulation = \"gxl\"\nlabel = \"M1-\"",
    );
    let project = read(&typed);
    let found = schedules(&project, &assess(&project));
    let labels: Vec<&str> = found.wires.iter().map(|w| w.label.text.as_str()).collect();
    assert_eq!(labels, ["M1-", "M1b-"], "a typed label keeps its text");
}

#[test]
fn the_legend_names_what_is_behind_each_fuse() {
    let project = read(&format!("{METRIC}{BLOCK}"));
    let found = schedules(&project, &assess(&project));
    let legend = &found.legends[0];
    assert_eq!(
        (legend.label.as_str(), legend.letter.as_str()),
        ("Fuse block", "A")
    );
    assert_eq!(legend.ways.len(), 4);
    assert_eq!(legend.ways[0].circuit, "Fan");
    assert_eq!(legend.ways[0].fuse_colour, Some("red"));
    assert_eq!(legend.ways[2].rating, None);
    assert_eq!(legend.ways[1].circuit, "");
    let block = found.terminals.iter().find(|t| t.item == *"block").unwrap();
    let at: Vec<(&str, usize)> = block
        .terminals
        .iter()
        .map(|entry| (entry.terminal.as_str(), entry.wires.len()))
        .collect();
    assert_eq!(at, [("in", 1), ("1", 1), ("2", 0), ("3", 0), ("4", 0)]);
}

#[test]
fn colours_follow_the_standard_and_typed_ones_win() {
    let project = read(METRIC);
    let found = schedules(&project, &assess(&project));
    let colour = |id: &str| {
        let wire = found.wires.iter().find(|wire| wire.wire == *id).unwrap();
        wire.colour.as_ref().map(|known| known.value.clone())
    };
    assert_eq!(colour("plus").as_deref(), Some("red"));
    assert_eq!(colour("minus").as_deref(), Some("yellow"));
    let typed = METRIC.replace(
        "insulation = \"gxl\"",
        "insulation = \"gxl\"\ncolour = \"blue\"",
    );
    let found = count(&typed);
    let blue =
        |line: &&&Line| matches!(&line.thing, Thing::Wire { colour: Some(c), .. } if c == "blue");
    assert_eq!(wires(&found).iter().filter(blue).count(), 1);
}

#[test]
fn a_fuse_names_all_gear_that_is_joined_one_after_the_other() {
    let text = "wainwright = 1\n[item.block]\nkind = \"fuse-block\"\nfuses = [\"10 A\"]\n\
        [item.bank]\nkind = \"switch-bank\"\nways = 2\n\
        [item.a]\nkind = \"load\"\ncurrent = \"1 A\"\n[item.b]\nkind = \"load\"\ncurrent = \"1 A\"\n\
        [item.c]\nkind = \"load\"\ncurrent = \"1 A\"\n\
        [wire.w1]\nfrom = \"block.1\"\nto = \"bank.in1\"\n[wire.w2]\nfrom = \"bank.in1\"\nto = \"bank.in2\"\n\
        [wire.w3]\nfrom = \"bank.out1\"\nto = \"a.+\"\n[wire.w4]\nfrom = \"bank.out2\"\nto = \"b.+\"\n\
        [wire.w5]\nfrom = \"b.+\"\nto = \"c.+\"\n";
    let project = read(text);
    let found = schedules(&project, &assess(&project));
    let way = &found.legends[0].ways[0];
    let mut gear: Vec<&str> = way.gear.iter().map(|id| id.as_str()).collect();
    gear.sort_unstable();
    assert_eq!(gear, ["a", "b", "c"]);
    let labels: Vec<&str> = found.wires.iter().map(|w| w.label.text.as_str()).collect();
    assert_eq!(labels[0], "A1+");
    assert!(
        labels.iter().all(|label| label.starts_with("A1")),
        "{labels:?}"
    );
}

#[test]
fn a_wire_between_terminals_of_one_thing_needs_no_loop() {
    let text = METRIC.replace("to = \"lamp.+\"", "to = \"bat.-\"");
    let project = read(&text);
    let found = assess(&project);
    let plus = found.routing.wire("plus").unwrap().route.as_ref().unwrap();
    close(plus.bare.metres(), 0.0, 1e-9);
    // Both ends of thin wire, twice 100 mm.
    close(plus.cut.millimetres(), 200.0, 1e-6);
}

//! Prints the assessment of a project text read from standard input: a quick look for developers.
use std::io::Read;
use std::time::Instant;
use wainwright_analysis::{assess, catalogue};

fn main() {
    let mut text = String::new();
    std::io::stdin()
        .read_to_string(&mut text)
        .expect("text on standard input");
    let parsed = wainwright_model::parse(&text, catalogue());
    for problem in &parsed.problems {
        println!("{problem:?}");
    }
    let start = Instant::now();
    let found = assess(&parsed.project);
    println!("first {:?}", start.elapsed());
    let start = Instant::now();
    for _ in 0..10 {
        std::hint::black_box(assess(&parsed.project));
    }
    println!("each {:?}", start.elapsed() / 10);
    for state in &found.states {
        println!("{:?} {:?} {:?}", state.kind, state.lasting, state.outcome);
    }
    for wire in &found.wires {
        let worst = wire.worst.and_then(|w| wire.states.get(w));
        println!(
            "{:16} {:8} {:?} Iz {:6.1} (own {:6.1}) worst {:?} {:?} guards {:?}",
            wire.id.as_str(),
            wire.size.value.to_string(),
            wire.side,
            wire.ampacity.in_force.amperes(),
            wire.ampacity.computed.amperes(),
            worst.map(|w| w.amps.amperes()),
            worst.map(|w| w.temperature.celsius()),
            wire.guards
                .iter()
                .map(|g| (
                    g.source.as_str(),
                    g.device.map(|d| found.devices[d].label.clone()),
                    g.bare_length.map(|l| l.metres()),
                    g.overload
                        .as_ref()
                        .map(|o| (o.slow_region.celsius(), o.fast_region.celsius()))
                ))
                .collect::<Vec<_>>()
        );
    }
    for consumer in &found.consumers {
        let states: Vec<_> = consumer
            .states
            .iter()
            .map(|s| {
                (
                    s.on,
                    s.volts.map(|v| v.volts()),
                    s.amps.amperes(),
                    s.drop_share.map(|d| d.fraction()),
                )
            })
            .collect();
        println!(
            "{:12} {:?} {:?}",
            consumer.item.as_str(),
            consumer.role,
            states
        );
    }
    for fault in found.faults.iter() {
        println!(
            "{}.{} max {:.0} A {:?} min {:.0} A {:?} {:?}",
            fault.at.0,
            fault.at.1,
            fault.largest.amps.amperes(),
            fault.largest.cleared.map(|c| c.1.seconds()),
            fault.smallest.amps.amperes(),
            fault.smallest.cleared.map(|c| c.1.seconds()),
            fault
                .smallest
                .openings
                .iter()
                .map(|o| found.devices[o.device].label.clone())
                .collect::<Vec<_>>()
        );
    }
    println!("{:?}", found.missing);
    println!("{:?}", found.loose);
    println!("{} assumptions", found.assumptions.len());
}

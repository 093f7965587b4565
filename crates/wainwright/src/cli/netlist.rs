//! `netlist`: one state as a deck for a circuit simulator, so that anybody
//! can check the solver with a program that has nothing to do with it.

use super::args::NetlistArgs;
use super::check::wanted_state;
use super::exit::{Status, Trouble};
use super::out::Out;
use crate::store;
use crate::study::Study;

/// Prints the deck, with what was found here as comments.
pub fn run(args: &NetlistArgs, out: &mut Out) -> Result<Status, Trouble> {
    let study = Study::of(store::read(&args.file)?);
    let state = wanted_state(&study, args.state.as_deref())?.unwrap_or(0);
    let Some(netlist) = wainwright_analysis::netlist(&study.project, state) else {
        return Err(Trouble::NoSuch(
            "this state has no operating point to compare with; choose another one with --state"
                .into(),
        ));
    };
    out.line(netlist.text.trim_end());
    for (node, volts) in netlist.node_volts.iter().enumerate() {
        let Some(volts) = volts else { continue };
        let names = study
            .assessment
            .nodes
            .get(node)
            .map_or(String::new(), |node| {
                let names = node
                    .terminals
                    .iter()
                    .map(|(item, terminal)| format!("{item}.{terminal}"));
                names.collect::<Vec<_>>().join(" ")
            });
        out.line(format!("* n{node} {:.9} V {names}", volts.volts()));
    }
    Ok(Status::Done)
}

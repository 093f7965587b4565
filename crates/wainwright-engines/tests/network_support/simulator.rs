//! Runs ngspice, a general-purpose circuit simulator, on networks.
//!
//! Constant powers become current sources that are resistive below their lowest voltage. Not
//! here: comparison.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    reason = "a failed assumption is a failed test"
)]

use std::fmt::Write as _;
use std::path::PathBuf;
use std::process::Command;

use wainwright_engines::network::{Element, Network};

/// A directory of decks that is removed when dropped.
pub struct Bench {
    folder: PathBuf,
}

impl Bench {
    pub fn new(name: &str) -> Self {
        let folder = std::env::temp_dir().join(format!("{name}-{}", std::process::id()));
        std::fs::create_dir_all(&folder).expect("the folder for decks can be made");
        Self { folder }
    }

    /// Writes a deck and returns its path.
    pub fn write(&self, name: &str, text: &str) -> PathBuf {
        let path = self.folder.join(name);
        std::fs::write(&path, text).expect("the deck can be written");
        path
    }

    /// Runs control commands in one process and returns what it printed.
    pub fn run(&self, name: &str, commands: &str) -> String {
        let text = format!("* control\n.control\nset numdgt=14\n{commands}quit\n.endc\n.end\n");
        let path = self.write(name, &text);
        let output = Command::new("ngspice").arg("-b").arg(&path).output();
        let output = output.unwrap_or_else(|error| {
            panic!(
                "ngspice cannot be started ({error}). This test compares with the live simulator; \
                 install it, for example `apt-get install ngspice` or `brew install ngspice`"
            )
        });
        let mut printed = String::from_utf8_lossy(&output.stdout).into_owned();
        printed.push_str(&String::from_utf8_lossy(&output.stderr));
        printed
    }
}

impl Drop for Bench {
    fn drop(&mut self) {
        let _ = std::fs::remove_dir_all(&self.folder);
    }
}

/// The network as a deck. `guess_volts` is the start of the iteration for each node.
pub fn deck(network: &Network, guess_volts: &[f64]) -> String {
    let mut text = String::from("* network\n");
    let name = |node: usize| {
        if node == network.ground {
            "0".to_owned()
        } else {
            format!("n{node}")
        }
    };
    for (index, branch) in network.branches.iter().enumerate() {
        let (a, b) = (name(branch.from), name(branch.to));
        let line = match branch.element {
            Element::Resistor(r) => format!("R{index} {a} {b} {:e}", r.ohms()),
            Element::Source { emf, resistance } => format!(
                "V{index} m{index} {b} DC {:e}\nR{index} m{index} {a} {:e}",
                emf.volts(),
                resistance.ohms()
            ),
            Element::ConstantCurrent(i) => format!("I{index} {a} {b} DC {:e}", i.amperes()),
            Element::ConstantPower { power, lowest } => {
                let (p, low) = (power.watts(), lowest.volts());
                if low > 0.0 {
                    let slope = p / (low * low);
                    format!(
                        "B{index} {a} {b} I=V({a},{b}) > {low:e} ? {p:e}/V({a},{b}) : \
                         {slope:e}*V({a},{b})"
                    )
                } else {
                    format!("B{index} {a} {b} I={p:e}/V({a},{b})")
                }
            }
            Element::Open => continue,
            Element::Regulated { .. } => panic!("a charger has no counterpart in the deck"),
        };
        writeln!(text, "{line}").unwrap();
    }
    for (node, volts) in guess_volts.iter().enumerate() {
        if node != network.ground {
            writeln!(text, ".nodeset V({})={volts:e}", name(node)).unwrap();
        }
    }
    text.push_str(".options reltol=1e-9 vntol=1e-12 abstol=1e-12 itl1=1000\n.end\n");
    text
}

/// Reads the node voltages out of what `print all` printed.
pub fn printed_volts(network: &Network, printed: &str) -> Vec<Option<f64>> {
    let mut volts = vec![None; network.node_count];
    volts[network.ground] = Some(0.0);
    for line in printed.lines() {
        let Some((name, value)) = line.split_once('=') else {
            continue;
        };
        let node = name
            .trim()
            .strip_prefix('n')
            .and_then(|n| n.parse::<usize>().ok());
        if let (Some(node), Ok(value)) = (node, value.trim().parse()) {
            volts[node] = Some(value);
        }
    }
    volts
}

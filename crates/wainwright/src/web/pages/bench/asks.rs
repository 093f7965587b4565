//! What is asked about a wire or a joint, with what stands there at first.
//! Not here: reading what was typed.

use wainwright_analysis::result::Run;

/// Where a wire can run, as in the file.
pub const RUNS: [(&str, Run); 5] = [
    ("open", Run::Open),
    ("bundle", Run::Bundle),
    ("foam", Run::Foam),
    ("cavity", Run::Cavity),
    ("conduit", Run::Conduit),
];

/// One input with its name, label, example and what stands in it at first.
pub struct Ask {
    /// As in the address.
    pub name: &'static str,
    /// For people.
    pub label: &'static str,
    /// What can be typed.
    pub hint: &'static str,
    /// What stands in it at first.
    pub usual: &'static str,
    /// The same in a metric project.
    pub usual_metric: &'static str,
}

/// What is asked about a wire.
pub const WIRE: [Ask; 7] = [
    Ask {
        name: "size",
        label: "Size",
        hint: "10 AWG, 10 SAE or 6 mm2",
        usual: "12 AWG",
        usual_metric: "4 mm2",
    },
    Ask {
        name: "length",
        label: "Length, one way",
        hint: "12 ft, 3.5 m",
        usual: "12 ft",
        usual_metric: "4 m",
    },
    Ask {
        name: "current",
        label: "Current",
        hint: "15 A",
        usual: "15 A",
        usual_metric: "15 A",
    },
    Ask {
        name: "insulation",
        label: "Insulation",
        hint: "gpt, gxl, boat-105, thwn …",
        usual: "gxl",
        usual_metric: "gxl",
    },
    Ask {
        name: "bundle",
        label: "Loaded wires side by side",
        hint: "this one counted",
        usual: "1",
        usual_metric: "1",
    },
    Ask {
        name: "volts",
        label: "System voltage",
        hint: "12.8 V",
        usual: "12.8 V",
        usual_metric: "12.8 V",
    },
    Ask {
        name: "air",
        label: "Air around it, if known",
        hint: "104 °F, 40 °C",
        usual: "",
        usual_metric: "",
    },
];

/// What is asked about a joint.
pub const JOINT: [Ask; 2] = [
    Ask {
        name: "resistance",
        label: "Resistance of the joint",
        hint: "2 mohm",
        usual: "2 mohm",
        usual_metric: "2 mohm",
    },
    Ask {
        name: "through",
        label: "Current through it",
        hint: "30 A",
        usual: "30 A",
        usual_metric: "30 A",
    },
];

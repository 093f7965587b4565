//! Ways to weigh, each with short steps and the fields it needs. The fields are
//! those of the file; what is typed is read as everywhere. Not here: results.

use super::HERE;
use crate::views::road::words;
use crate::web::html::{back, revision};
use crate::web::view::View;
use maud::{Markup, html};
use wainwright_model::{Kind, WeighedBy};

/// One field: its name in the file, its label, a hint.
type FieldWords = (&'static str, &'static str, &'static str);

/// One way to weigh.
struct Way {
    by: WeighedBy,
    title: &'static str,
    steps: &'static [&'static str],
    fields: &'static [FieldWords],
}

const READING: FieldWords = ("reading", "The scale says", "such as 182 lb or 83 kg");
const ACCURACY: FieldWords = ("accuracy", "It may be off by", "such as 2 lb or 1 kg");

const WAYS: [Way; 6] = [
    Way {
        by: WeighedBy::Tongue,
        title: "Hitch on a scale",
        steps: &[
            "Chock the wheels, uncouple, level the trailer.",
            "Put the scale under the coupler, with a block on it that is as high as the ball.",
            "Let the coupler down onto the block and read.",
        ],
        fields: &[READING, ACCURACY],
    },
    Way {
        by: WeighedBy::Beam,
        title: "Hitch on a plank and a bathroom scale",
        steps: &[
            "For more than the scale can bear: lay a strong plank on a support at one end and on the scale at the other.",
            "Read the scale with the bare plank.",
            "Let the coupler down onto the plank, nearer to the support; read again and measure both distances.",
        ],
        fields: &[
            READING,
            ("bare", "Scale with the bare plank", "such as 6 lb"),
            ("support_to_load", "Support to coupler", "such as 12 in"),
            ("load_to_scale", "Coupler to scale", "such as 24 in"),
            ACCURACY,
        ],
    },
    Way {
        by: WeighedBy::Jack,
        title: "Jack on a scale",
        steps: &[
            "Chock the wheels and uncouple.",
            "Set the jack's foot on the scale, level the trailer and read.",
            "Measure how far the jack stands behind the ball.",
        ],
        fields: &[
            READING,
            ("jack_behind_ball", "Jack behind the ball", "such as 10 in"),
            ACCURACY,
        ],
    },
    Way {
        by: WeighedBy::PublicScale,
        title: "Public scale, axle by axle",
        steps: &[
            "Drive on with the trailer: note front axle, rear axle and trailer axles.",
            "Come back without the trailer, just as laden: note front and rear axle.",
        ],
        fields: &[
            ("coupled_front", "With it: front axle", ""),
            ("coupled_rear", "With it: rear axle", ""),
            ("coupled_trailer", "With it: trailer axles", ""),
            ("alone_front", "Alone: front axle", ""),
            ("alone_rear", "Alone: rear axle", ""),
            ("accuracy", "Each may be off by", "such as 20 lb or 10 kg"),
        ],
    },
    Way {
        by: WeighedBy::Axle,
        title: "All wheels on a scale",
        steps: &["Drive all wheels of the trailer onto the scale, level, and read."],
        fields: &[READING, ACCURACY],
    },
    Way {
        by: WeighedBy::Whole,
        title: "Whole trailer on a scale",
        steps: &["Uncouple on the scale, chock the wheels, and read all of it."],
        fields: &[READING, ACCURACY],
    },
];

/// Every way, folded.
pub fn how(view: &View) -> Markup {
    html! {
        section #how-to-weigh aria-labelledby="how-heading" {
            h2 #how-heading { "Add a weighing" }
            p { "Two different ways tell mass and centre of the bare trailer; a third one checks them." }
            div.ways-to-weigh {
                @for way in &WAYS { (one(view, way)) }
            }
            p.hint {
                "One side at a time, or anything else: "
                a href={ "/add/weighing?back=" (HERE) } { "all fields of a weighing" } "."
            }
        }
    }
}

fn one(view: &View, way: &Way) -> Markup {
    let word = way.by.as_str();
    html! {
        details.way-to-weigh id={ "weigh-" (word) } {
            summary { (way.title) }
            ol.steps-to-weigh { @for step in way.steps { li { (step) } } }
            form method="post" action="/add/weighing" data-weigh=(word) {
                (revision(view.now.revision))
                (back(HERE))
                input type="hidden" name="by" value=(word);
                div.fields {
                    @for field in way.fields { (input(word, field)) }
                    (input(word, &("label", "Day and place", "so that you know it again")))
                }
                (full_tanks(view))
                button.primary { "Add this weighing" }
            }
        }
    }
}

fn input(word: &str, (name, label, hint): &FieldWords) -> Markup {
    let id = format!("{word}-{name}");
    html! {
        div.field {
            label for=(id) { (label) }
            @if !hint.is_empty() { p.hint id={ "hint-" (id) } { (hint) } }
            input id=(id) name=(name) autocomplete="off" spellcheck="false"
                aria-describedby=[(!hint.is_empty()).then(|| format!("hint-{id}"))];
        }
    }
}

/// Which tanks were full.
fn full_tanks(view: &View) -> Markup {
    let project = &view.study().project;
    let tanks: Vec<_> = project
        .items
        .iter()
        .filter(|(_, item)| item.spec.kind() == Kind::Tank)
        .map(|(id, _)| id)
        .collect();
    html! {
        @if !tanks.is_empty() {
            fieldset {
                legend { "Full at that time" }
                div.switches {
                    @for id in tanks {
                        label.switch {
                            input type="checkbox" name="full" value=(id);
                            span { (words::item(project, id.as_str())) }
                        }
                    }
                }
            }
        }
        p.hint { "Everything but people counts as aboard. Was something left out? Add it, then tick what was aboard under its name above." }
    }
}

//! Stories of the lining: boxes with anything in them are laid and cut without a fall, and areas add up.

use std::collections::BTreeSet;
use wainwright_analysis::lining::{inputs, study};
use wainwright_analysis::result::lining::PieceMark;
use wainwright_analysis::road;
use wainwright_model::Project;

/// Numbers that look random and are the same each time.
struct Chances(u64);

impl Chances {
    fn below(&mut self, end: u64) -> u64 {
        self.0 = self
            .0
            .wrapping_mul(6_364_136_223_846_793_005)
            .wrapping_add(1);
        (self.0 >> 33) % end
    }

    fn one_of<'a>(&mut self, words: &[&'a str]) -> &'a str {
        words[self.below(words.len() as u64) as usize]
    }
}

/// A box with anything in it: layers of all kinds on any side, holes anywhere, sizes that fit or do not.
fn anything(chances: &mut Chances) -> String {
    let mut text = String::from("wainwright = 1\n[trailer]\n");
    for field in [
        "inside_length",
        "inside_width",
        "inside_height",
        "rib_spacing",
        "rib_width",
    ] {
        if chances.below(20) > 0 {
            text += &format!("{field} = \"{} mm\"\n", 40 + chances.below(3000));
        }
    }
    text += &format!("roof_rise = \"{} mm\"\n", chances.below(300));
    let rip = chances.one_of(&["true", "false"]);
    text += &format!(
        "[tools]\ncan_rip = {rip}\nend_trim = \"{} mm\"\n",
        chances.below(20)
    );
    let sides = ["left", "right", "front", "rear", "roof", "floor"];
    for number in 0..chances.below(4) {
        let wall = chances.one_of(&sides);
        let mut at = || chances.below(3000);
        text += &format!(
            "[opening.o{number}]\nwall = \"{wall}\"\nspot = \"{} mm, {} mm, {} mm\"\nsize = \"{} mm x {} mm x {} mm\"\n",
            at(),
            at(),
            at(),
            at(),
            at(),
            at()
        );
    }
    let kinds = ["skin", "battens", "foam", "planks", "sheets", "film", "air"];
    for number in 0..1 + chances.below(4) {
        let (one, other) = (chances.one_of(&sides), chances.one_of(&sides));
        text += &format!(
            "[layer.l{number}]\non = [\"{one}\", \"{other}\"]\nof = \"{}\"\norder = {}\nmaterial = \"{}\"\n",
            chances.one_of(&kinds),
            1 + chances.below(3),
            chances.one_of(&["spruce", "xps", "moonwood"])
        );
        for (field, most) in [
            ("thickness", 40),
            ("width", 900),
            ("length", 3000),
            ("gap", 30),
        ] {
            if chances.below(8) > 0 {
                text += &format!("{field} = \"{} mm\"\n", 1 + chances.below(most));
            }
        }
    }
    for number in 0..chances.below(4) {
        text += &format!(
            "[stock.s{number}]\nof = \"{}\"\nlength = \"{} mm\"\ncount = {}\nwidth = \"{} mm\"\n",
            chances.one_of(&["plank", "sheet", "foam"]),
            1 + chances.below(4000),
            chances.below(5),
            1 + chances.below(1500)
        );
        if chances.below(2) == 0 {
            text += &format!("price = {}\n", chances.below(50));
        }
    }
    text
}

#[test]
fn no_box_brings_it_down() {
    let mut chances = Chances(7);
    let mut laid = 0;
    for _ in 0..150 {
        let text = anything(&mut chances);
        let project: Project =
            wainwright_model::parse(&text, wainwright_analysis::catalogue()).project;
        let found = study(&inputs(&project));
        let _ = road::study(&project);
        for (_, layer) in found.layers() {
            laid += usize::from(!layer.pieces.is_empty());
            let areas = layer.areas.map(|areas| {
                let parts = [areas.pieces, areas.openings, areas.gaps, areas.left_out];
                let sum: f64 = parts.iter().map(|area| area.square_metres()).sum();
                sum - areas.surface.square_metres()
            });
            assert!(
                areas.is_none_or(|apart| apart.abs() < 1e-6),
                "{areas:?}\n{text}"
            );
        }
        for job in &found.jobs {
            let marks: BTreeSet<PieceMark> = job.marks().into_iter().collect();
            assert_eq!(marks.len(), job.marks().len(), "{text}");
        }
    }
    assert!(laid > 50, "{laid}");
}

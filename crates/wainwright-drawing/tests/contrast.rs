//! Texts can be read: contrast of at least 4.5 on every ground they stand on,
//! by the relative luminance of WCAG 2.2, in light and dark.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::panic)]

use std::collections::BTreeMap;

const LEAST: f64 = 4.5;

type Rgb = [f64; 3];

/// Custom properties of both blocks: light, dark.
fn colours() -> [BTreeMap<String, Rgb>; 2] {
    let sheet = wainwright_drawing::stylesheet();
    let blocks: Vec<&str> = sheet.split(".drawing{--ink").skip(1).collect();
    assert_eq!(blocks.len(), 2);
    [blocks[0], blocks[1]].map(|block| {
        let block = format!("--ink{}", block.split('}').next().unwrap());
        let pair = |text: &str| {
            let (name, value) = text.trim().split_once(':')?;
            Some((name.trim_start_matches("--").to_owned(), rgb(value)?))
        };
        block.split(';').filter_map(pair).collect()
    })
}

fn rgb(text: &str) -> Option<Rgb> {
    let hex = text.trim().strip_prefix('#')?;
    let hex = if hex.len() == 3 {
        hex.chars().flat_map(|c| [c, c]).collect()
    } else {
        hex.to_owned()
    };
    let part =
        |at: usize| Some(f64::from(u8::from_str_radix(hex.get(at..at + 2)?, 16).ok()?) / 255.0);
    Some([part(0)?, part(2)?, part(4)?])
}

fn luminance(colour: Rgb) -> f64 {
    let linear = colour.map(|c| {
        if c <= 0.04045 {
            c / 12.92
        } else {
            ((c + 0.055) / 1.055).powf(2.4)
        }
    });
    0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]
}

fn contrast(a: Rgb, b: Rgb) -> f64 {
    let (a, b) = (luminance(a), luminance(b));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

/// `share` of `a` in `b`. Mixed plainly; the drawing mixes in oklab, which differs little for small shares.
fn mixed(a: Rgb, b: Rgb, share: f64) -> Rgb {
    [0, 1, 2].map(|i| a[i] * share + b[i] * (1.0 - share))
}

#[test]
fn texts_can_be_read_on_their_grounds() {
    for colours in colours() {
        let colour = |name: &str| {
            *colours
                .get(name)
                .unwrap_or_else(|| panic!("no colour {name}"))
        };
        let (ink, soft, paper, panel) = (
            colour("ink"),
            colour("soft"),
            colour("paper"),
            colour("panel"),
        );
        let tinted = |tone: &str| mixed(colour(tone), panel, 0.09);
        let grounds = [
            paper,
            panel,
            mixed(panel, paper, 0.55),
            tinted("watch"),
            tinted("bad"),
        ];
        for ground in grounds {
            assert!(contrast(ink, ground) >= LEAST, "ink {ground:?}");
            assert!(
                contrast(soft, ground) >= LEAST,
                "soft {} on {ground:?}",
                contrast(soft, ground)
            );
        }
        for tone in ["watch", "bad"] {
            let value = contrast(paper, colour(tone));
            assert!(value >= LEAST, "sign on {tone}: {value}");
        }
        for tone in ["scale-0", "scale-1"] {
            let value = contrast(ink, mixed(colour(tone), panel, 0.2));
            assert!(value >= LEAST, "ink on {tone}: {value}");
        }
    }
}

//! Draws sample scenes, overviews, sheets and cards as stand-alone pages.
//! `cargo run -p wainwright-drawing --example scenes -- <folder>`

#[path = "../tests/common/mod.rs"]
mod common;

use common::nonsense::senseless;
use common::overview::{card, grid, labels, overview, ratios, sheet};
use common::scenes::{bars, camper, wired};
use std::path::Path;
use wainwright_drawing::legend::{CardOptions, fuse_card};
use wainwright_drawing::scene::{Face, Fit, Layer, Options, Scene, View, draw};
use wainwright_drawing::sheet::{Paper, label_sheets, picture_sheet, scene_sheet};
use wainwright_drawing::{Picture, Style, single_line};

fn main() -> std::io::Result<()> {
    let folder = std::env::args().nth(1).unwrap_or_else(|| ".".into());
    let folder = Path::new(&folder);
    let wide = |height: f64| Fit::Within {
        width: 1160.0,
        height,
    };
    let phone = Fit::Within {
        width: 366.0,
        height: 760.0,
    };
    let plan = View::plan();
    let up = View::plan_upright();
    scene(folder, "plan", &camper(), &plan, wide(560.0), Layer::Things)?;
    scene(folder, "plan-phone", &camper(), &up, phone, Layer::Things)?;
    scene(folder, "wires", &wired(), &plan, wide(560.0), Layer::Wires)?;
    scene(folder, "wires-phone", &wired(), &up, phone, Layer::Wires)?;
    scene(
        folder,
        "left-outside",
        &camper(),
        &View::outside(Face::Left),
        wide(560.0),
        Layer::Things,
    )?;
    scene(
        folder,
        "left-inside",
        &wired(),
        &View::wall_inside(Face::Left),
        wide(420.0),
        Layer::Wires,
    )?;
    scene(
        folder,
        "rear",
        &camper(),
        &View::outside(Face::Rear),
        wide(420.0),
        Layer::Things,
    )?;
    scene(
        folder,
        "left-phone",
        &camper(),
        &View::outside(Face::Left),
        phone,
        Layer::Things,
    )?;
    scene(
        folder,
        "upright-wide",
        &camper(),
        &up,
        wide(700.0),
        Layer::Things,
    )?;
    scene(
        folder,
        "senseless",
        &senseless(7),
        &plan,
        wide(560.0),
        Layer::Things,
    )?;
    for (name, width) in [("single-line", 760.0), ("single-line-phone", 366.0)] {
        let options = single_line::Options {
            width,
            ..single_line::Options::default()
        };
        write(folder, name, &single_line::draw(&overview(), &options))?;
    }
    for (name, width) in [("card", 560.0), ("card-phone", 366.0)] {
        let options = CardOptions {
            width,
            ..CardOptions::default()
        };
        write(folder, name, &fuse_card(&card(), &options))?;
    }
    let options = Options {
        scale_bars: bars(),
        ..Options::default()
    };
    let paper = sheet(Paper::Letter, true);
    let printed = scene_sheet(&paper, &camper(), &plan, &options, &ratios());
    write(folder, "sheet", &printed.picture)?;
    let paper = sheet(Paper::A4, false);
    let line = single_line::draw(&overview(), &single_line::Options::default());
    write(
        folder,
        "sheet-line",
        &picture_sheet(&paper, &line, "no scale"),
    )?;
    for (number, page) in label_sheets(&grid(), &labels(52)).iter().enumerate() {
        write(folder, &format!("labels{number}"), page)?;
    }
    Ok(())
}

fn scene(
    folder: &Path,
    name: &str,
    scene: &Scene,
    view: &View,
    fit: Fit,
    top: Layer,
) -> std::io::Result<()> {
    let options = Options {
        fit,
        top,
        scale_bars: bars(),
        ..Options::default()
    };
    write(folder, name, &draw(scene, view, &options))
}

fn write(folder: &Path, name: &str, picture: &Picture) -> std::io::Result<()> {
    let svg = picture.svg(&Style {
        title: name.into(),
        ..Style::default()
    });
    let page = format!(
        "<!doctype html><meta charset=utf-8><meta name=color-scheme content=\"light dark\"><body style=\"margin:12px\">{svg}"
    );
    std::fs::write(folder.join(format!("{name}.html")), page)?;
    std::fs::write(folder.join(format!("{name}.svg")), svg)
}

//! Cutting plans as the drawings want them: boards with their pieces, sheets with their cuts in words. Not here: pages.

use super::drawing::place;
use super::words;
use crate::web::view::View;
use wainwright_analysis::result::lining::{
    BarPlan, CutBar, CutFromSheet, CuttingJob, PlannedSheet, SawCut, SheetPlan,
};
use wainwright_drawing::cutting::{Bar, BarPiece, CutSheet, SheetCut, SheetPiece};
use wainwright_model::Goods;

/// Every board of a plan, numbered from 1.
pub fn bars(view: &View, job: &CuttingJob, plan: &BarPlan) -> Vec<Bar> {
    let all = plan.bars.iter().enumerate();
    all.map(|(index, bar)| one_bar(view, job, bar, index + 1))
        .collect()
}

fn one_bar(view: &View, job: &CuttingJob, bar: &CutBar, number: usize) -> Bar {
    let source = from(view, job, bar.stock, bar.owned);
    let keep = if bar.keep {
        "keep it"
    } else {
        "too short to keep"
    };
    let left = words::tape(view, bar.offcut);
    let note = match bar.offcut.millimetres() < 1.0 {
        true => "nothing left over".to_owned(),
        false => format!("left over {left}, {keep}"),
    };
    let pieces: Vec<BarPiece> = bar
        .pieces
        .iter()
        .map(|(mark, length)| BarPiece {
            mark: mark.to_string(),
            text: words::tape(view, *length),
            length_m: length.metres(),
        })
        .collect();
    let named: Vec<String> = pieces
        .iter()
        .map(|piece| format!("{} {}", piece.mark, piece.text))
        .collect();
    Bar {
        head: format!("Board {number}: {source}"),
        words: format!("Board {number}: {}; {note}", named.join(", ")),
        note,
        length_m: bar.length.metres(),
        trim_m: bar.trim.metres(),
        kerf_m: job.kerf.metres(),
        pieces,
        offcut_m: bar.offcut.metres(),
        offcut: left,
        keep: bar.keep,
    }
}

/// Where a board or sheet comes from.
fn from(view: &View, job: &CuttingJob, stock: usize, owned: bool) -> String {
    let name = job.stocks.get(stock).map(|stock| words::stock(view, stock));
    let place = if owned { "from the shed" } else { "to buy" };
    format!("{}, {place}", name.unwrap_or_default())
}

/// Every sheet of a plan, numbered from 1.
pub fn sheets(view: &View, job: &CuttingJob, plan: &SheetPlan) -> Vec<CutSheet> {
    let all = plan.sheets.iter().enumerate();
    all.map(|(index, sheet)| one_sheet(view, job, sheet, index + 1))
        .collect()
}

fn one_sheet(view: &View, job: &CuttingJob, sheet: &PlannedSheet, number: usize) -> CutSheet {
    let word = if job.goods == Goods::Foam {
        "Foam board"
    } else {
        "Sheet"
    };
    let source = from(view, job, sheet.stock, sheet.owned);
    let cuts: Vec<SheetCut> = sheet
        .cuts
        .iter()
        .map(|cut| SheetCut {
            of: place(&cut.of),
            upright: cut.upright,
            setting_m: cut.setting.metres(),
            words: cut_words(view, job, sheet, cut),
        })
        .collect();
    CutSheet {
        head: format!("{word} {number}: {source}"),
        words: format!(
            "{word} {number}: {} pieces, {} cuts",
            sheet.pieces.len(),
            cuts.len()
        ),
        width_m: sheet.width.metres(),
        height_m: sheet.height.metres(),
        kerf_m: job.kerf.metres(),
        pieces: sheet
            .pieces
            .iter()
            .map(|piece| one_piece(view, piece))
            .collect(),
        offcuts: sheet.offcuts.iter().map(place).collect(),
        cuts,
        sizes: [
            words::tape(view, sheet.width),
            words::tape(view, sheet.height),
        ],
    }
}

fn one_piece(view: &View, piece: &CutFromSheet) -> SheetPiece {
    let (wide, high) = (
        words::tape(view, piece.place.width),
        words::tape(view, piece.place.height),
    );
    SheetPiece {
        mark: piece.mark.to_string(),
        text: if piece.turned {
            format!("{high} × {wide}")
        } else {
            format!("{wide} × {high}")
        },
        place: place(&piece.place),
    }
}

/// What to do at one cut: which part, which way, what the fence is set to.
fn cut_words(view: &View, job: &CuttingJob, sheet: &PlannedSheet, cut: &SawCut) -> String {
    let part = part(sheet, cut.part);
    let (way, edge) = match cut.upright {
        true => ("from the bottom up", "left"),
        false => ("from left to right", "lower"),
    };
    let kind = match (job.goods, cut.rip) {
        (Goods::Foam, _) => "",
        (_, true) => ", along the grain",
        (_, false) => ", across the grain",
    };
    format!(
        "Cut {part} {way}{kind}, {} from its {edge} edge; the cut is {} long.",
        words::tape(view, cut.setting),
        words::tape(view, cut.length)
    )
}

/// A part of a sheet in words: the whole, or what an earlier cut made.
fn part(sheet: &PlannedSheet, part: usize) -> String {
    if part == 0 {
        return "the whole sheet".into();
    }
    let made_by = part.div_ceil(2);
    let upright = made_by
        .checked_sub(1)
        .and_then(|index| sheet.cuts.get(index))
        .is_some_and(|cut| cut.upright);
    let near = part % 2 == 1;
    let which = match (upright, near) {
        (true, true) => "left",
        (true, false) => "right",
        (false, true) => "lower",
        (false, false) => "upper",
    };
    format!("the {which} part of cut {made_by}")
}

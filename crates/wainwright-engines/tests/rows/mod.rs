//! Rows of the tables of checked values, read by column name.
#![allow(dead_code, reason = "each test file uses a part")]

use wainwright_engines::sun::Moment;

/// One row with its column names.
pub struct Row {
    names: Vec<String>,
    fields: Vec<String>,
}

/// All rows of a table in `tests/data`; lines that begin with `#` are notes.
pub fn rows(file: &str) -> Vec<Row> {
    let path = format!("{}/tests/data/{file}", env!("CARGO_MANIFEST_DIR"));
    let text = std::fs::read_to_string(path).unwrap();
    let cut = |line: &str| line.split(',').map(str::to_owned).collect::<Vec<_>>();
    let mut lines = text.lines().filter(|line| !line.starts_with('#'));
    let names = cut(lines.next().unwrap());
    lines
        .map(|line| Row {
            names: names.clone(),
            fields: cut(line),
        })
        .collect()
}

impl Row {
    /// The text in a column.
    pub fn text(&self, column: &str) -> &str {
        let at = self.names.iter().position(|name| name == column);
        &self.fields[at.unwrap_or_else(|| panic!("no column {column}"))]
    }

    /// The number in a column; an empty field is NaN.
    pub fn number(&self, column: &str) -> f64 {
        match self.text(column) {
            "" => f64::NAN,
            text => text.parse().unwrap(),
        }
    }

    /// The universal time in column `utc` or `utc_mid` or `utc_start`.
    pub fn moment(&self) -> Moment {
        let column = self.names.iter().find(|name| name.starts_with("utc"));
        let text = self.text(column.unwrap());
        let part = |from: usize, to: usize| text[from..to].parse::<f64>().unwrap();
        let hour = part(11, 13) + part(14, 16) / 60.0 + part(17, 19) / 3600.0;
        Moment::from_utc(
            part(0, 4) as i32,
            part(5, 7) as u32,
            part(8, 10) as u32,
            hour,
        )
        .unwrap()
    }

    /// The first two fields, to name the row in a message.
    pub fn name(&self) -> String {
        self.fields[..2].join(" ")
    }
}

/// Asserts that a value agrees with a printed one of eight digits: 1e-9 relative, half a unit of
/// the last digit, and what the rounded inputs leave `open`.
pub fn near(row: &Row, column: &str, value: f64, open: f64) {
    let expected = row.number(column);
    if expected.is_nan() && value.is_nan() {
        return;
    }
    // A level panel sees no ground; the checked program uses a millionth of a degree there.
    let level = if column == "iam_mr_gnd" { 1e-7 } else { 1e-9 };
    let half_unit = match expected {
        0.0 => 0.0,
        other => 0.5 * 10_f64.powf(other.abs().log10().floor() - 7.0),
    };
    let allowed = 1.000_001 * half_unit + 1e-9 * expected.abs() + open + level;
    assert!(
        (value - expected).abs() <= allowed,
        "{} {column}: {value} instead of {expected}, allowed {allowed:e}",
        row.name()
    );
}

/// The ten chains of `markov_clearness.csv`.
pub fn chains() -> Vec<wainwright_engines::weather::Chain> {
    let all = rows("markov_clearness.csv");
    let chain = |tens: &[Row]| {
        let mut rows = [[0.0; 10]; 10];
        for (from, row) in tens.iter().enumerate() {
            for (to, share) in rows[from].iter_mut().enumerate() {
                *share = row.number(&format!("to_{}", to + 1));
            }
        }
        wainwright_engines::weather::Chain {
            up_to: tens[0].number("mean_kt_to"),
            lowest: tens[0].number("state_kt_min"),
            highest: tens[0].number("state_kt_max"),
            rows,
        }
    };
    all.chunks(10).map(chain).collect()
}

/// The measured iron-phosphate cell: charge, open voltage, hysteresis.
pub fn open_points(column: &str) -> Vec<(f64, f64)> {
    let point = |row: &Row| (row.number("soc"), row.number(column));
    rows("lfp_reference_ocv.csv").iter().map(point).collect()
}

/// Its measured resistance at 10, 25, 40 and 60 °C, on charge (`RCh`) or discharge (`RDCh`).
pub fn resistance_points(way: &str) -> Vec<(f64, [f64; 4])> {
    let point = |row: &Row| {
        let value = |celsius: u32| row.number(&format!("{way}_T{celsius}_ohmAh"));
        (row.number("soc"), [10, 25, 40, 60].map(value))
    };
    rows("lfp_reference_r.csv").iter().map(point).collect()
}

//! One table as text: header lines, column names, marked rows.
//!
//! Here: the reader of the data files and its errors. Not here: which tables exist (`store`) and what they mean (topic
//! modules).
//!
//! The form of a file: lines `# key: value` with at least the keys in [`REQUIRED_KEYS`], one line of column names with
//! a column `mark`, then rows of the same width separated by commas; a text never contains a comma. A row may override
//! the header with columns `document`, `edition` and `place`; an empty cell there means "as in the header".

use std::fmt;

use crate::mark::{Mark, Source, Sourced};

/// Header keys without which a table is refused.
pub const REQUIRED_KEYS: &[&str] = &["document", "edition", "place", "units"];

/// Why a table was refused.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct LoadError {
    /// Name of the table.
    pub table: String,
    /// Line in the file, counted from 1; 0 for the file as a whole.
    pub line: usize,
    /// What was found and what was expected.
    pub why: String,
}

impl fmt::Display for LoadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{} line {}: {}", self.table, self.line, self.why)
    }
}

impl std::error::Error for LoadError {}

#[derive(Debug, Clone)]
struct Cell {
    text: String,
    number: Option<f64>,
}

#[derive(Debug, Clone)]
struct RowData {
    cells: Vec<Cell>,
    source: usize,
}

/// A loaded table: every row has a mark and a source.
#[derive(Debug, Clone)]
pub struct Table {
    name: String,
    head: Vec<(String, String)>,
    columns: Vec<String>,
    rows: Vec<RowData>,
    sources: Vec<Source>,
}

/// One row of a table that lives as long as the program.
#[derive(Debug, Clone, Copy)]
pub struct Row {
    table: &'static Table,
    data: &'static RowData,
    source: &'static Source,
}

/// Reads a table from its text.
///
/// # Errors
/// [`LoadError`] at the first missing header key, column `mark`, wrong width, missing or unknown mark, or empty
/// document.
pub fn load(name: &str, text: &str) -> Result<Table, LoadError> {
    let mut table = Table {
        name: name.to_owned(),
        head: Vec::new(),
        columns: Vec::new(),
        rows: Vec::new(),
        sources: Vec::new(),
    };
    for (index, line) in text.lines().enumerate() {
        table
            .read_line(line)
            .map_err(|why| table.error(index + 1, why))?;
    }
    table.check().map_err(|why| table.error(0, why))?;
    Ok(table)
}

impl Table {
    /// Name of the table: its path below the data folder, without the ending.
    pub fn name(&self) -> &str {
        &self.name
    }

    /// The value of a header line.
    pub fn head(&self, key: &str) -> Option<&str> {
        let found = self.head.iter().find(|(name, _)| name == key)?;
        Some(&found.1)
    }

    /// The distinct sources of the rows, in order of first appearance.
    pub fn sources(&self) -> &[Source] {
        &self.sources
    }

    /// How many rows rest on the source with this index in [`Table::sources`].
    pub fn rows_of(&self, source: usize) -> usize {
        self.rows.iter().filter(|row| row.source == source).count()
    }

    /// The rows in the order of the file.
    pub fn rows(&'static self) -> impl Iterator<Item = Row> {
        self.rows.iter().filter_map(move |data| {
            let source = self.sources.get(data.source)?;
            Some(Row {
                table: self,
                data,
                source,
            })
        })
    }

    /// The first row whose cell in `column` is `text`.
    pub(crate) fn find(&'static self, column: &str, text: &str) -> Option<Row> {
        self.rows().find(|row| row.text(column) == Some(text))
    }

    fn error(&self, line: usize, why: String) -> LoadError {
        LoadError {
            table: self.name.clone(),
            line,
            why,
        }
    }

    fn read_line(&mut self, line: &str) -> Result<(), String> {
        if let Some(head) = line.strip_prefix('#') {
            let (key, value) = head
                .split_once(':')
                .ok_or_else(|| format!("found {line:?}; expected `# key: value`"))?;
            self.head
                .push((key.trim().to_owned(), value.trim().to_owned()));
        } else if line.trim().is_empty() {
        } else if self.columns.is_empty() {
            self.read_columns(line)?;
        } else {
            self.read_row(line)?;
        }
        Ok(())
    }

    fn read_columns(&mut self, line: &str) -> Result<(), String> {
        for key in REQUIRED_KEYS {
            if self.head(key).is_none_or(str::is_empty) {
                return Err(format!(
                    "no header line `# {key}: ...` above the column names"
                ));
            }
        }
        self.columns = line.split(',').map(|name| name.trim().to_owned()).collect();
        if self.column("mark").is_none() {
            return Err("no column `mark`".to_owned());
        }
        Ok(())
    }

    fn read_row(&mut self, line: &str) -> Result<(), String> {
        let cells: Vec<Cell> = line.split(',').map(Cell::new).collect();
        let (found, expected) = (cells.len(), self.columns.len());
        if found != expected {
            return Err(format!("found {found} cells; expected {expected}"));
        }
        let text = |column: &str| {
            self.column(column)
                .and_then(|index| cells.get(index))
                .map_or("", |cell| cell.text.as_str())
        };
        let word = text("mark");
        let mark = Mark::from_id(word).ok_or_else(|| {
            format!("found mark {word:?}; expected read, derived, memory or judgement")
        })?;
        let own = |key: &str| match text(key) {
            "" => self.head(key).unwrap_or_default().to_owned(),
            given => given.to_owned(),
        };
        let (document, edition, place) = (own("document"), own("edition"), own("place"));
        let source = self.intern(document, edition, place, mark);
        self.rows.push(RowData { cells, source });
        Ok(())
    }

    fn intern(&mut self, document: String, edition: String, place: String, mark: Mark) -> usize {
        let known = self.sources.iter().position(|source| {
            source.mark == mark
                && source.document == document
                && source.edition == edition
                && source.place == place
        });
        if let Some(index) = known {
            return index;
        }
        let index = self.sources.len();
        let id = match index {
            0 => self.name.clone(),
            _ => format!("{}-{}", self.name, index + 1),
        };
        self.sources.push(Source {
            id,
            document,
            edition,
            place,
            mark,
        });
        index
    }

    fn check(&self) -> Result<(), String> {
        if self.columns.is_empty() {
            return Err("no line of column names".to_owned());
        }
        if self.rows.is_empty() {
            return Err("no rows".to_owned());
        }
        Ok(())
    }

    fn column(&self, name: &str) -> Option<usize> {
        self.columns.iter().position(|column| column == name)
    }
}

impl Row {
    /// The text of a cell; none if there is no such column or the cell is empty.
    pub fn text(&self, column: &str) -> Option<&'static str> {
        let cell = self.cell(column)?;
        (!cell.text.is_empty()).then_some(cell.text.as_str())
    }

    /// The number in a cell; none if there is no such column or the cell holds no finite number.
    pub fn number(&self, column: &str) -> Option<f64> {
        self.cell(column)?.number
    }

    /// How the row is known.
    pub fn mark(&self) -> Mark {
        self.source.mark
    }

    /// Attaches the source of this row to a value read from it.
    pub fn sourced<T>(&self, value: T) -> Sourced<T> {
        Sourced {
            value,
            source: self.source,
            mark: self.source.mark,
        }
    }

    /// A number of this row turned into a quantity, with its source.
    pub(crate) fn quantity<T>(
        &self,
        column: &str,
        make: impl FnOnce(f64) -> T,
    ) -> Option<Sourced<T>> {
        Some(self.sourced(make(self.number(column)?)))
    }

    fn cell(&self, column: &str) -> Option<&'static Cell> {
        self.data.cells.get(self.table.column(column)?)
    }
}

impl Cell {
    fn new(text: &str) -> Self {
        let text = text.trim().to_owned();
        let number = text.parse().ok().filter(|number: &f64| number.is_finite());
        Self { text, number }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const GOOD: &str = "# document: D\n# edition: E\n# place: P\n# units: A\nsize,amps,mark\n10,30,read\n12,20,memory\n";

    fn refused(from: &str, to: &str) -> LoadError {
        assert!(GOOD.contains(from), "the case must change the text");
        load("case", &GOOD.replacen(from, to, 1)).expect_err("must be refused")
    }

    #[test]
    fn a_marked_table_loads_with_one_source_per_mark() {
        let table = load("case", GOOD).expect("loads");
        let ids: Vec<&str> = table.sources().iter().map(|s| s.id.as_str()).collect();
        assert_eq!(ids, ["case", "case-2"]);
        assert_eq!(table.rows_of(0), 1);
    }

    #[test]
    fn a_row_without_a_mark_is_refused_with_its_line() {
        let error = refused("12,20,memory", "12,20,");
        assert_eq!(error.line, 7);
        assert!(error.why.contains("mark"), "{error}");
    }

    #[test]
    fn an_unknown_mark_is_refused() {
        assert!(refused("memory", "sure").why.contains("\"sure\""));
    }

    #[test]
    fn a_table_without_a_mark_column_is_refused() {
        assert!(
            refused("amps,mark", "amps,note")
                .why
                .contains("column `mark`")
        );
    }

    #[test]
    fn each_missing_or_empty_header_key_is_refused() {
        for (from, key) in [
            ("# document: D\n", "document"),
            ("# edition: E\n", "edition"),
            ("# place: P\n", "place"),
            ("# units: A\n", "units"),
        ] {
            assert!(refused(from, "").why.contains(key));
        }
        assert!(
            refused("# document: D", "# document:")
                .why
                .contains("document")
        );
    }

    #[test]
    fn a_row_of_the_wrong_width_is_refused() {
        assert!(
            refused("10,30,read", "10,30,5,read")
                .why
                .contains("4 cells")
        );
    }

    #[test]
    fn a_table_without_rows_is_refused() {
        let head = GOOD.split("10,30").next().expect("head");
        assert_eq!(load("case", head).expect_err("refused").line, 0);
        assert!(load("case", "").is_err());
    }

    #[test]
    fn a_row_may_name_its_own_document() {
        let text = "# document: D\n# edition: E\n# place: P\n# units: A\nsize,document,mark\n1,Other,read\n2,,read\n";
        let table = load("case", text).expect("loads");
        let documents: Vec<&str> = table
            .sources()
            .iter()
            .map(|s| s.document.as_str())
            .collect();
        assert_eq!(documents, ["Other", "D"]);
    }
}

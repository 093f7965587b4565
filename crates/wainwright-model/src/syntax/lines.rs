//! Byte offsets to lines and columns.

/// Starts of all lines of a text.
#[derive(Debug, Clone)]
pub(crate) struct Lines<'t> {
    text: &'t str,
    starts: Vec<usize>,
}

impl<'t> Lines<'t> {
    /// Finds the line starts of `text`.
    pub fn new(text: &'t str) -> Self {
        let mut starts = vec![0];
        starts.extend(
            text.bytes()
                .enumerate()
                .filter(|(_, b)| *b == b'\n')
                .map(|(i, _)| i + 1),
        );
        Self { text, starts }
    }

    /// Line and column, both counted from 1, the column in characters.
    pub fn place(&self, offset: usize) -> (usize, usize) {
        let offset = offset.min(self.text.len());
        let line = self.starts.partition_point(|start| *start <= offset).max(1);
        let start = self.starts.get(line - 1).copied().unwrap_or(0);
        let before = self.text.get(start..offset).unwrap_or("");
        (
            line,
            before.trim_start_matches('\u{feff}').chars().count() + 1,
        )
    }
}

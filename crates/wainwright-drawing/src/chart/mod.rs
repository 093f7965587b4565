//! Small charts.

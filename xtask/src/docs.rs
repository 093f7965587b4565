//! The generated documents: which there are, writing them, and whether they are up to date.
//! Not here: what they say, which comes from the crates.

use crate::{rules_page, tree};

/// One generated document.
struct Document {
    /// Where it is, from the root of the checkout.
    path: &'static str,
    /// What it says now.
    text: String,
}

/// Writes those that changed.
pub fn write() -> Result<String, String> {
    let stale = stale()?;
    for document in &stale {
        tree::write(document.path, &document.text)?;
    }
    Ok(match stale.len() {
        0 => "the generated documents were up to date".into(),
        _ => format!("written: {}", paths(&stale)),
    })
}

/// Fails when one is not up to date.
pub fn check() -> Result<String, String> {
    let stale = stale()?;
    match stale.len() {
        0 => Ok("the generated documents are up to date".into()),
        _ => Err(format!(
            "not up to date: {}. Run: cargo xtask docs",
            paths(&stale)
        )),
    }
}

fn stale() -> Result<Vec<Document>, String> {
    let mut documents = all()?;
    documents.retain(|document| tree::text_or_nothing(document.path) != document.text);
    Ok(documents)
}

fn paths(documents: &[Document]) -> String {
    let paths: Vec<&str> = documents.iter().map(|document| document.path).collect();
    paths.join(", ")
}

fn all() -> Result<Vec<Document>, String> {
    Ok(vec![
        Document {
            path: "docs/sources.md",
            text: wainwright_reference::sources_markdown(),
        },
        Document {
            path: "docs/rules.md",
            text: rules_page::markdown(),
        },
        Document {
            path: "docs/schema/project.schema.json",
            text: schema()?,
        },
    ])
}

fn schema() -> Result<String, String> {
    let schema = wainwright_model::json_schema();
    serde_json::to_string_pretty(&schema)
        .map(|text| text + "\n")
        .map_err(|why| format!("the schema could not be printed: {why}"))
}

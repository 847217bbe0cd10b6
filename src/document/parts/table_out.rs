//! A parts library as one table for spreadsheets (RFC 4180, UTF-8): a header line, then a line for each
//! size of a hose or an end, each clamp, each length. Metric, with the unit in the column's name.

use serde_json::Value;

use super::cell::written;
use super::columns::{self, Column, LISTS};
use crate::document::file::{NotFinite, write_parts};
use crate::model::Stock;

/// The name of a column as it is written.
fn name(column: &Column) -> String {
    let (ending, _) = column.sort.measures()[0];
    format!("{}{ending}", column.name)
}

/// Every column once, in the order of the lists.
fn names() -> Vec<String> {
    let mut names = vec!["kind".to_owned()];
    for (list, ..) in LISTS {
        for name in columns::of(list).iter().map(name) {
            if !names.contains(&name) {
                names.push(name);
            }
        }
    }
    names
}

/// The table. What no column is for (keys of the file that are not known) is not in it.
///
/// # Errors
/// [`NotFinite`], where a number is not finite.
pub fn parts_to_csv(stock: &Stock) -> Result<Vec<u8>, NotFinite> {
    let text = write_parts(stock)?;
    let file: Value = serde_json::from_str(&text).unwrap_or_default();
    let names = names();
    let mut rows = vec![names.clone()];
    for (list, key, word) in LISTS {
        for part in file[key].as_array().into_iter().flatten() {
            let columns = columns::of(list);
            let sizes = part["sizes"].as_array().map(Vec::as_slice).unwrap_or_default();
            // What has no sizes has one line.
            let lines = if sizes.is_empty() { &[Value::Null] } else { sizes };
            for size in lines {
                let cell = |name_of: &String| match name_of.as_str() {
                    "kind" => word.to_owned(),
                    _ => columns
                        .iter()
                        .find(|column| name(column) == *name_of)
                        .map(|column| cell(column, part, size))
                        .unwrap_or_default(),
                };
                rows.push(names.iter().map(cell).collect());
            }
        }
    }
    Ok(table(&rows))
}

fn cell(column: &Column, part: &Value, size: &Value) -> String {
    let value = &(if column.of_size { size } else { part })[column.key];
    written(column.place.map_or(value, |place| &value[place]))
}

fn table(rows: &[Vec<String>]) -> Vec<u8> {
    let mut writer =
        csv::WriterBuilder::new().terminator(csv::Terminator::CRLF).from_writer(Vec::new());
    for row in rows {
        // Memory takes all that is written to it, and all rows are of one length.
        let _ = writer.write_record(row);
    }
    writer.into_inner().unwrap_or_default()
}

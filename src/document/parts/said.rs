//! What a file would be refused for, in the words of the window.

use super::columns::{self, LISTS};
use crate::document::file::Fault;
use crate::model::{Stock, StockList};
use crate::units::Measure;

/// "−6, OD: missing", "Name: expected a name that no other of this manufacturer has".
pub fn said(fault: &Fault, stock: &Stock) -> String {
    let steps: Vec<&str> = fault.pointer.split('/').skip(1).collect();
    let [key, place, rest @ ..] = &steps[..] else { return fault.to_string() };
    let Some((list, ..)) = LISTS.iter().find(|(_, other, _)| other == key) else {
        return fault.to_string();
    };
    let place: usize = place.parse().unwrap_or_default();
    let (size, key) = match rest {
        ["sizes", size, key, ..] => (size.parse().ok(), *key),
        [key, ..] => (None, *key),
        [] => (None, ""),
    };
    let column = columns::of(*list).iter().find(|c| c.of_size == size.is_some() && c.key == key);
    let word = match (column, key) {
        (Some(column), _) if column.place.is_some() => pair(column.key),
        (Some(column), _) => column.word,
        (None, "sizes") => "Sizes",
        (None, key) => key,
    };
    // A figure of 0 stands for one that was not typed yet.
    let is_needed = ["outside", "bend_radius", "along", "socket", "length"].contains(&key);
    let what = if fault.found == "nothing" || (is_needed && fault.found == "0") {
        "missing".to_owned()
    } else {
        let hint = fault.hint.as_ref().map(|hint| format!("; {hint}")).unwrap_or_default();
        format!("expected {}{hint}", fault.expected)
    };
    match size.and_then(|size: usize| size_name(stock, *list, place, size)) {
        Some(size) => format!("{size}, {word}: {what}"),
        None => format!("{word}: {what}"),
    }
}

/// The word of a key that holds least and greatest.
fn pair(key: &str) -> &'static str {
    match key {
        "temperature_c" => "Temperature",
        "length_change_pct" => "Length change",
        _ => "OD",
    }
}

/// A size by its dash number, and its angle where it has one.
fn size_name(stock: &Stock, list: StockList, place: usize, size: usize) -> Option<String> {
    match list {
        StockList::Hoses => {
            let size = stock.hoses.get(place)?.sizes.get(size)?;
            Some(Measure::Dash.show(size.dash.into()))
        }
        StockList::Ends => {
            let size = stock.ends.get(place)?.sizes.get(size)?;
            Some(format!("{} at {}\u{b0}", Measure::Dash.show(size.dash.into()), size.angle_deg))
        }
        _ => None,
    }
}

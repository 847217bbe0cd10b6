//! The shopping list as CSV (RFC 4180, UTF-8), for ordering: a header line, then one line for each
//! kind of thing.

use crate::engine::cutting::{Amount, Line, ShoppingList};
use crate::model::Routing;

use super::csv::{line, number, text};

/// The columns, each with its unit. Prices are in the bay file's own money.
const COLUMNS: [&str; 13] = [
    "routing",
    "kind",
    "id",
    "name",
    "dash",
    "angle_deg",
    "length_mm",
    "for_outside_mm",
    "quantity",
    "quantity_unit",
    "supply",
    "unit_price",
    "price",
];

/// The whole file. Lines end in CR LF. A price that is not known is an empty field.
pub fn cutlist_csv(routing: &Routing, list: &ShoppingList) -> String {
    let mut out = header();
    for one in &list.lines {
        out.push_str(&line(&row(routing, one)));
    }
    out
}

/// The header line.
pub(super) fn header() -> String {
    line(&COLUMNS.map(str::to_owned))
}

fn row(routing: &Routing, one: &Line) -> [String; 13] {
    let optional = |value: Option<f64>| value.map_or_else(String::new, number);
    let (quantity, unit) = match one.amount {
        Amount::Pieces(n) => (n.to_string(), "piece"),
        Amount::Length(mm) => (number(mm / 1000.0), "m"),
    };
    [
        text(&routing.id),
        one.group.word().to_owned(),
        text(&one.id),
        text(&one.name),
        one.dash.map_or_else(String::new, |dash| dash.to_string()),
        optional(one.angle_deg),
        optional(one.length_mm),
        optional(one.outside_mm),
        quantity,
        unit.to_owned(),
        if one.is_on_shelf { "shelf" } else { "buy" }.to_owned(),
        if one.is_on_shelf { String::new() } else { optional(one.unit_price) },
        optional(one.price()),
    ]
}

//! The shopping list as CSV (RFC 4180, UTF-8), for ordering: a header line, then one line for each
//! kind of thing.

use crate::engine::cutting::{Amount, Line, ShoppingList};
use crate::model::Routing;
use crate::units::{Derived, Length, LengthUnit};

use super::csv::{line, number, text};

/// The columns, each with its unit: that of the bay. Prices are in the bay file's own money.
fn columns(unit: LengthUnit) -> [&'static str; 13] {
    let [length, outside] = match unit {
        LengthUnit::Mm => ["length_mm", "for_outside_mm"],
        LengthUnit::Inch => ["length_in", "for_outside_in"],
    };
    [
        "routing",
        "kind",
        "id",
        "name",
        "dash",
        "angle_deg",
        length,
        outside,
        "quantity",
        "quantity_unit",
        "supply",
        "unit_price",
        "price",
    ]
}

/// The whole file. Lines end in CR LF. A price that is not known is an empty field.
pub fn cutlist_csv(routing: &Routing, list: &ShoppingList, unit: LengthUnit) -> String {
    let mut out = header(unit);
    for one in &list.lines {
        out.push_str(&line(&row(routing, one, unit)));
    }
    out
}

/// The header line.
pub(super) fn header(unit: LengthUnit) -> String {
    line(&columns(unit).map(str::to_owned))
}

fn row(routing: &Routing, one: &Line, unit: LengthUnit) -> [String; 13] {
    let optional = |value: Option<f64>| value.map_or_else(String::new, number);
    let length = |mm: f64| match unit {
        LengthUnit::Mm => mm,
        LengthUnit::Inch => Length::from_mm(mm).inches(),
    };
    let (quantity, quantity_unit, unit_price) = match one.amount {
        Amount::Pieces(n) => (n.to_string(), "piece", one.unit_price),
        Amount::Length(mm) => (
            number(Derived::HoseSold.number(mm / 1000.0, unit)),
            Derived::HoseSold.sign(unit),
            one.unit_price.map(|per_m| Derived::hose_price(per_m, unit)),
        ),
    };
    [
        text(&routing.id),
        one.group.word().to_owned(),
        text(&one.id),
        text(&one.name),
        one.dash.map_or_else(String::new, |dash| dash.to_string()),
        optional(one.angle_deg),
        optional(one.length_mm.map(length)),
        optional(one.outside_mm.map(length)),
        quantity,
        quantity_unit.to_owned(),
        if one.is_on_shelf { "shelf" } else { "buy" }.to_owned(),
        if one.is_on_shelf { String::new() } else { optional(unit_price) },
        optional(one.price()),
    ]
}

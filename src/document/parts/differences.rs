//! What differs between two records of one part.

use serde_json::Value;

use super::columns::{self, Column, LISTS, Sort};
use crate::document::file::write_parts;
use crate::model::{Stock, StockEntry};
use crate::units::{Derived, LengthUnit, Measure};

/// Each figure that differs, as "−6, OD: 1/2 in here, 15/32 in there". Empty where both are the same.
pub fn differences(
    (one, here): (&StockEntry, &str),
    (other, there): (&StockEntry, &str),
    units: LengthUnit,
) -> Vec<String> {
    if one == other {
        return Vec::new();
    }
    let (Some(a), Some(b)) = (as_value(one), as_value(other)) else { return Vec::new() };
    let columns = columns::of(one.list());
    let mut found = Vec::new();
    let mut compare = |name: &str, of_size: bool, a: &Value, b: &Value| {
        for column in columns.iter().filter(|column| column.of_size == of_size) {
            let [a, b] = [a, b].map(|value| figure(column, value));
            if a != b {
                let [mut one, mut other] = [a, b].map(|value| shown(column, value, units));
                // Where rounding hides it, all of both is shown.
                if one.trim_start_matches("\u{2248} ") == other.trim_start_matches("\u{2248} ") {
                    [one, other] = [a, b].map(|value| whole(column, value, units));
                }
                let (a, b) = (one, other);
                found.push(format!("{name}{}: {a} {here}, {b} {there}", column.word));
            }
        }
    };
    compare("", false, &a, &b);
    let mut only = Vec::new();
    for size in sizes(&a) {
        match sizes(&b).iter().find(|other| key(other) == key(size)) {
            Some(other) => compare(&format!("{}, ", size_name(size)), true, size, other),
            None => only.push(format!("{} only {here}", size_name(size))),
        }
    }
    for size in
        sizes(&b).iter().filter(|size| sizes(&a).iter().all(|other| key(other) != key(size)))
    {
        only.push(format!("{} only {there}", size_name(size)));
    }
    found.extend(only);
    if found.is_empty() {
        found.push("keys of the file that this version does not know".to_owned());
    }
    found
}

fn as_value(entry: &StockEntry) -> Option<Value> {
    let mut stock = Stock::default();
    entry.clone().put(&mut stock);
    let file: Value = serde_json::from_str(&write_parts(&stock).ok()?).ok()?;
    let (_, key, _) = LISTS.iter().find(|(list, ..)| *list == entry.list())?;
    Some(file[key][0].clone())
}

fn sizes(part: &Value) -> &[Value] {
    part["sizes"].as_array().map(Vec::as_slice).unwrap_or_default()
}

fn key(size: &Value) -> (&Value, &Value) {
    (&size["dash"], &size["angle_deg"])
}

fn size_name(size: &Value) -> String {
    let angle = size["angle_deg"].as_f64().map(|deg| format!(" at {deg}\u{b0}"));
    let dash = Measure::Dash.show(size["dash"].as_f64().unwrap_or_default());
    format!("{dash}{}", angle.unwrap_or_default())
}

fn figure<'a>(column: &Column, value: &'a Value) -> &'a Value {
    let value = &value[column.key];
    column.place.map_or(value, |place| &value[place])
}

fn shown(column: &Column, value: &Value, units: LengthUnit) -> String {
    match value {
        Value::String(text) => text.clone(),
        Value::Bool(true) => "yes".to_owned(),
        Value::Bool(false) => "no".to_owned(),
        Value::Number(number) => {
            let number = number.as_f64().unwrap_or_default();
            match column.sort {
                Sort::Fixed(Derived::HoseSold) => {
                    format!("{:.2}", Derived::hose_price(number, units))
                }
                Sort::Fixed(quantity) => quantity.show(number, units, 3),
                sort => sort.shown_in(units).show(number),
            }
        }
        _ => "not given".to_owned(),
    }
}

/// All digits of a figure, with its unit.
fn whole(column: &Column, value: &Value, units: LengthUnit) -> String {
    let Some(number) = value.as_f64() else { return shown(column, value, units) };
    let measure = column.sort.shown_in(units);
    let typed = measure.typed(number);
    if typed.ends_with(char::is_alphabetic) { typed } else { format!("{typed} {}", measure.sign()) }
}

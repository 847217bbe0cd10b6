//! What the sizes of hoses and ends have in common.

use crate::app::widgets::{Field, Form, Range};
use crate::units::Measure;

/// What undo would call a change; the library has its own words.
pub(super) const CHANGE: &str = "Change part";

/// A field of one of several sizes, named after it.
pub(super) struct Names(pub(super) usize);

impl Names {
    pub(super) fn of(&self, what: &str) -> String {
        format!("{what} of size {}", self.0)
    }
}

pub(super) fn field<'f>(label: &'f str, tip: &'f str, name: &'f str) -> Field<'f> {
    Field::new(label, tip, CHANGE).named(name)
}

/// A dash number.
pub(super) fn dash(form: &mut Form<'_>, names: &Names, dash: &mut u32) {
    let name = names.of("Dash");
    let tip = "The dash number: a name, sixteenths of an inch of the tube that it goes with";
    let mut typed = f64::from(*dash);
    form.figure(&field("Size", tip, &name), Measure::Dash, Range::Positive, vec![&mut typed]);
    *dash = typed as u32;
}

/// A figure that must be there, and is shown empty until it is typed.
pub(super) fn needed(
    form: &mut Form<'_>,
    (label, tip, name): (&str, &str, &str),
    range: Range,
    value: &mut f64,
) {
    let mut typed = (*value != 0.0).then_some(*value);
    let length = form.length();
    form.maybe(&field(label, tip, name), length, range, "needed", vec![&mut typed]);
    *value = typed.unwrap_or_default();
}

/// Least and greatest working temperature.
pub(super) fn temperatures(form: &mut Form<'_>, value: &mut Option<[f64; 2]>) {
    let measure = Measure::Temperature(form.units().into());
    let tip = "Working temperature, by the manufacturer";
    let fields = [
        field("Least temp.", tip, "Least temperature"),
        field("Greatest temp.", tip, "Greatest temperature"),
    ];
    pair(form, fields, measure, value);
}

/// Change of length under pressure.
pub(super) fn length_change(form: &mut Form<'_>, value: &mut Option<[f64; 2]>) {
    let tip = "At the rating, by the manufacturer: below 0 it gets shorter";
    let fields = [
        field("Shortest", tip, "Shortest under pressure"),
        field("Longest", tip, "Longest under pressure"),
    ];
    pair(form, fields, Measure::Percent, value);
}

/// Least and greatest. The first to be typed stands for both until the other is typed.
fn pair(
    form: &mut Form<'_>,
    fields: [Field<'_>; 2],
    measure: Measure,
    value: &mut Option<[f64; 2]>,
) {
    let before = *value;
    let [mut least, mut greatest] = before.map_or([None; 2], |pair| pair.map(Some));
    for (field, figure) in fields.iter().zip([&mut least, &mut greatest]) {
        form.maybe(field, measure, Range::Any, "not known", vec![figure]);
    }
    *value = match (least, greatest, before) {
        (Some(least), Some(greatest), _) => Some([least, greatest]),
        (Some(one), None, None) | (None, Some(one), None) => Some([one, one]),
        _ => None,
    };
}

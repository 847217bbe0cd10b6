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

/// Least and greatest working temperature; one that is typed alone waits for the other.
pub(super) fn temperatures(
    form: &mut Form<'_>,
    [least_name, greatest_name]: [&str; 2],
    value: &mut Option<[f64; 2]>,
) {
    let measure = Measure::Temperature(form.units().into());
    let before = value.map(|[least, greatest]| (least, greatest));
    let (mut least, mut greatest) = before.unzip();
    let tip = "Working temperature, by the manufacturer";
    let fields = [("Least temp.", least_name), ("Greatest temp.", greatest_name)];
    for ((label, name), figure) in fields.into_iter().zip([&mut least, &mut greatest]) {
        form.maybe(&field(label, tip, name), measure, Range::Any, "not known", vec![figure]);
    }
    *value = match (least, greatest, before) {
        (Some(least), Some(greatest), _) => Some([least, greatest]),
        // The first to be typed stands for both, until the other is typed.
        (Some(one), None, None) | (None, Some(one), None) => Some([one, one]),
        _ => None,
    };
}

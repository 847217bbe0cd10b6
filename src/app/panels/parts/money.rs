//! Prices and masses, by the metre or the foot.

use crate::app::widgets::{Field, Form, Range};
use crate::units::{Derived, Measure};

/// A figure that is shown and typed by the foot in a bay in inches, and stored by the metre.
pub(super) fn by_length(
    form: &mut Form<'_>,
    field: &Field<'_>,
    of: Option<Derived>,
    value: &mut Option<f64>,
) {
    let units = form.units();
    let there = |per_m: f64| {
        let figure = of.map_or(per_m, |quantity| quantity.number(per_m, units));
        Derived::hose_price(figure, units)
    };
    let back = |figure: f64| {
        let per_m = Derived::HoseSold.number(figure, units);
        of.map_or(per_m, |quantity| quantity.stored(per_m, units))
    };
    typed(form, field, (there, back), value);
}

/// A mass in the unit of the bay.
pub(super) fn mass(form: &mut Form<'_>, field: &Field<'_>, value: &mut Option<f64>) {
    let units = form.units();
    let there = |kg: f64| Derived::Mass.number(kg, units);
    let back = |figure: f64| Derived::Mass.stored(figure, units);
    typed(form, field, (there, back), value);
}

/// A price of one.
pub(super) fn price(form: &mut Form<'_>, field: &Field<'_>, value: &mut Option<f64>) {
    typed(form, field, (|price| price, |price| price), value);
}

fn typed(
    form: &mut Form<'_>,
    field: &Field<'_>,
    (there, back): (impl Fn(f64) -> f64, impl Fn(f64) -> f64),
    value: &mut Option<f64>,
) {
    let before = value.map(there);
    let mut figure = before;
    form.maybe(field, Measure::Number, Range::NotNegative, "not known", vec![&mut figure]);
    // What was not typed keeps its last digit.
    if figure != before {
        *value = figure.map(back);
    }
}

//! Rows with a quantity: one that must be there, or one that may be left out.

use super::figure::{Common, Figure, Range};
use super::form::{Field, Form};
use crate::units::Measure;

/// A value that was given; none where a field was emptied.
struct Given {
    value: Option<f64>,
}

impl Form<'_> {
    /// A quantity.
    pub(in crate::app) fn figure(
        &mut self,
        field: &Field<'_>,
        measure: Measure,
        range: Range,
        values: Vec<&mut f64>,
    ) {
        let first = values.first().map(|value| **value);
        let same = values.iter().all(|value| Some(**value) == first);
        let to = self.figure_row(field, measure, range, same.then_some(first), None);
        if let Some(Given { value: Some(to) }) = to {
            for value in values {
                *value = to;
            }
        }
    }

    /// A quantity that may be left out; `hint` tells what then stands in for it.
    pub(in crate::app) fn maybe(
        &mut self,
        field: &Field<'_>,
        measure: Measure,
        range: Range,
        hint: &str,
        values: Vec<&mut Option<f64>>,
    ) {
        let first = values.first().map(|value| **value);
        let same = values.iter().all(|value| Some(**value) == first);
        let now = first.filter(|_| same);
        if let Some(to) = self.figure_row(field, measure, range, now, Some(hint)) {
            for value in values {
                *value = to.value;
            }
        }
    }

    fn figure_row(
        &mut self,
        field: &Field<'_>,
        measure: Measure,
        range: Range,
        now: Common,
        hint: Option<&str>,
    ) -> Option<Given> {
        let id = self.id_of(field);
        let (changed, wrong) = self.row(field, |ui| {
            let figure = Figure {
                id,
                name: field.name(),
                tip: field.tip,
                measure,
                range,
                prefix: "",
                suffix: measure.sign(),
                hint: hint.unwrap_or_default(),
                optional: hint.is_some(),
                width: ui.available_width(),
            };
            figure.show(ui, now)
        });
        if let Some(wrong) = wrong {
            self.wrong(&wrong.said);
        }
        let changed = changed?;
        self.note(field.change, id, Some(changed.text), changed.base);
        Some(Given { value: changed.value })
    }
}

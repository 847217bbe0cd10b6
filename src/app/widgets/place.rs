//! A place in the bay: three coordinates in a row.

use glam::DVec3;

use super::figure::{Figure, Range};
use super::form::{Field, Form};
use crate::units::Measure;

/// The axes, with what they mean.
const AXES: [(&str, &str); 3] =
    [("X", "X runs forward"), ("Y", "Y runs to the left"), ("Z", "Z runs up")];

impl Form<'_> {
    /// Three lengths.
    pub(in crate::app) fn place(&mut self, field: &Field<'_>, values: Vec<&mut DVec3>) {
        self.triple(field, Measure::Length(self.units()), Range::Any, values);
    }

    /// Three sizes along the axes.
    pub(in crate::app) fn extent(&mut self, field: &Field<'_>, values: Vec<&mut DVec3>) {
        self.triple(field, Measure::Length(self.units()), Range::NotNegative, values);
    }

    /// Three numbers of one kind in a row.
    pub(super) fn triple(
        &mut self,
        field: &Field<'_>,
        measure: Measure,
        range: Range,
        mut values: Vec<&mut DVec3>,
    ) {
        self.caption(field, measure.sign());
        let mut found = Vec::new();
        let id = self.id_of(field);
        self.thirds(|ui, width| {
            for (axis, (letter, meaning)) in AXES.into_iter().enumerate() {
                let first = values.first().map(|value| value[axis]);
                let same = values.iter().all(|value| Some(value[axis]) == first);
                let name = format!("{} {letter}", field.name());
                let figure = Figure {
                    id: id.with(letter),
                    name: &name,
                    tip: &format!("{}. {meaning}", field.tip),
                    measure,
                    range,
                    prefix: letter,
                    suffix: "",
                    hint: "",
                    optional: false,
                    width,
                };
                let (changed, wrong) = figure.show(ui, same.then_some(first));
                found.push((axis, figure.id, changed, wrong));
            }
        });
        for (axis, id, changed, wrong) in found {
            if let Some(wrong) = wrong {
                self.wrong_across(&format!("{}: {}", AXES[axis].0, wrong.said));
            }
            if let Some(changed) = changed
                && let Some(to) = changed.value
            {
                for value in &mut values {
                    value[axis] = to;
                }
                self.note(field.change, id, Some(changed.text), changed.base);
            }
        }
    }
}

//! Fields one below the other: what each is on the left, what it is set to on the right, what is
//! wrong with it below.

use eframe::egui::{Align, Id, Label, Layout, RichText, Ui, vec2};

use super::entry::{self, Wrong};
use crate::app::theme::{self, size};
use crate::units::{LengthUnit, Measure};

/// A field's words.
#[derive(Debug, Clone, Copy)]
pub(in crate::app) struct Field<'a> {
    /// On its left.
    label: &'a str,
    /// What it is, for who does not see where it stands; the label where empty.
    full: &'a str,
    /// What it means.
    pub(super) tip: &'a str,
    /// What undo calls its change.
    pub(super) change: &'static str,
}

impl<'a> Field<'a> {
    pub(in crate::app) const fn new(label: &'a str, tip: &'a str, change: &'static str) -> Self {
        Self { label, full: "", tip, change }
    }

    /// With a name of its own for screen readers, where the label alone is not enough.
    pub(in crate::app) const fn named(self, full: &'a str) -> Self {
        Self { full, ..self }
    }

    pub(in crate::app) fn name(&self) -> &'a str {
        if self.full.is_empty() { self.label } else { self.full }
    }

    pub(super) fn without_label(&self) -> Self {
        Self { label: "", full: self.name(), ..*self }
    }
}

/// One part of every one of several things.
pub(in crate::app) fn all<'a, S, T>(
    things: &'a mut [S],
    part: impl Fn(&'a mut S) -> &'a mut T,
) -> Vec<&'a mut T> {
    things.iter_mut().map(part).collect()
}

/// What was changed.
struct Noted {
    change: &'static str,
    id: Id,
    text: Option<String>,
    base: String,
}

/// A form under way. Values are changed where they are; [`Form::changed`] tells that one was, and
/// [`Form::refuse`] puts what was typed back into its field.
pub(in crate::app) struct Form<'u> {
    ui: &'u mut Ui,
    scope: Id,
    units: LengthUnit,
    noted: Option<Noted>,
    /// Whether a value that was refused stands in a field.
    has_refused: bool,
}

/// The left column, of the whole width.
const LABELS: f32 = 0.36;
const GAP: f32 = 8.0;

/// The height of a line.
const ROW: f32 = 27.0;

impl<'u> Form<'u> {
    /// Fields of the thing that `scope` names; lengths in `units`.
    pub(in crate::app) fn new(ui: &'u mut Ui, scope: Id, units: LengthUnit) -> Self {
        ui.spacing_mut().item_spacing.y = 4.0;
        Self { ui, scope, units, noted: None, has_refused: false }
    }

    /// What undo is to call the change that was made, if one was.
    pub(in crate::app) fn changed(&self) -> Option<&'static str> {
        self.noted.as_ref().map(|noted| noted.change)
    }

    /// The change cannot be carried out.
    pub(in crate::app) fn refuse(&mut self, why: String) {
        if let Some(Noted { id, text, base, .. }) = self.noted.take() {
            entry::refuse(self.ui, id, text, base, Wrong::whole(why));
            self.ui.ctx().request_repaint();
        }
    }

    /// Whether this field is typed into now.
    pub(in crate::app) fn has_focus(&self, field: &Field<'_>) -> bool {
        let id = self.id_of(field);
        self.ui.memory(|memory| memory.has_focus(id))
    }

    pub(in crate::app) fn units(&self) -> LengthUnit {
        self.units
    }

    pub(in crate::app) fn length(&self) -> Measure {
        Measure::Length(self.units)
    }

    /// Fields of a part of the thing.
    pub(in crate::app) fn within(&mut self, part: &str, fields: impl FnOnce(&mut Form<'_>)) {
        let mut form = Form::new(self.ui, self.scope.with(part), self.units);
        fields(&mut form);
        let (noted, has_refused) = (form.noted.take(), form.has_refused);
        if noted.is_some() {
            self.noted = noted;
        }
        self.has_refused |= has_refused;
    }

    pub(in crate::app) fn has_refused(&self) -> bool {
        self.has_refused
    }

    pub(super) fn scope(&self) -> Id {
        self.scope
    }

    pub(super) fn ui(&mut self) -> &mut Ui {
        self.ui
    }

    /// A fact that is not changed here.
    pub(in crate::app) fn fact(&mut self, field: &Field<'_>, value: &str) {
        self.row(field, |ui| ui.add(Label::new(value).wrap()));
    }

    /// A button that changes something.
    pub(in crate::app) fn button(&mut self, text: &str, field: &Field<'_>) -> bool {
        let button = self.ui.button(text).on_hover_text(field.tip);
        let clicked = button.accessible_name(field.name()).clicked();
        if clicked {
            let id = self.id_of(field);
            self.note(field.change, id, None, String::new());
        }
        clicked
    }

    /// A change that was made by something else than a field.
    pub(in crate::app) fn changed_by_hand(&mut self, field: &Field<'_>) {
        let id = self.id_of(field);
        self.note(field.change, id, None, String::new());
    }

    /// A line that says where the figure above comes from, or what it means.
    pub(in crate::app) fn remark(&mut self, text: &str) {
        let colours = theme::palette(self.ui);
        self.below(RichText::new(text).size(size::SMALL).color(colours.soft));
    }

    /// What is wrong with the field above.
    pub(super) fn wrong(&mut self, said: &str) {
        let text = self.wrong_text(said);
        self.below(text);
    }

    /// The same below fields that take the whole width.
    pub(super) fn wrong_across(&mut self, said: &str) {
        let text = self.wrong_text(said);
        self.ui.add(Label::new(text).wrap());
    }

    fn wrong_text(&mut self, said: &str) -> RichText {
        self.has_refused = true;
        let colours = theme::palette(self.ui);
        RichText::new(format!("\u{25a0} {said}")).size(size::SMALL).color(colours.fail)
    }

    /// The standing reason why what was selected above was refused, where it was.
    pub(super) fn refusal(&mut self, id: Id, base: &str) {
        if let Some(wrong) = entry::standing_refusal(self.ui, id, base) {
            self.wrong(&wrong.said);
        }
    }

    fn below(&mut self, text: RichText) {
        self.ui.horizontal_top(|ui| {
            let left = ui.available_width() * LABELS + GAP;
            ui.add_space(left);
            ui.add(Label::new(text).wrap());
        });
    }

    /// A heading over fields that take the whole width, with their unit at the right.
    pub(super) fn caption(&mut self, field: &Field<'_>, unit: &str) {
        if field.label.is_empty() {
            return;
        }
        let colours = theme::palette(self.ui);
        let small = |text: &str| RichText::new(text).size(size::SMALL + 0.5).color(colours.soft);
        self.ui.horizontal(|ui| {
            ui.set_min_height(0.0);
            ui.label(small(field.label)).on_hover_text(field.tip);
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                ui.label(small(unit));
            });
        });
    }

    /// Three fields in a row, each with the width it has.
    pub(super) fn thirds(&mut self, fields: impl FnOnce(&mut Ui, f32)) {
        let width = (self.ui.available_width() - 2.0 * 6.0) / 3.0;
        self.ui.horizontal(|ui| {
            ui.spacing_mut().item_spacing.x = 6.0;
            fields(ui, width);
        });
    }

    /// Anything across the whole width.
    pub(in crate::app) fn whole<R>(&mut self, content: impl FnOnce(&mut Ui) -> R) -> R {
        content(self.ui)
    }

    /// A label and what stands beside it.
    pub(super) fn row<R>(&mut self, field: &Field<'_>, content: impl FnOnce(&mut Ui) -> R) -> R {
        let colours = theme::palette(self.ui);
        let width = self.ui.available_width() * LABELS;
        self.ui
            .horizontal(|ui| {
                ui.spacing_mut().item_spacing.x = GAP;
                let text = RichText::new(field.label).size(size::SMALL + 0.5).color(colours.soft);
                let label = Layout::left_to_right(Align::Center);
                ui.allocate_ui_with_layout(vec2(width, ROW), label, |ui| {
                    ui.set_min_size(vec2(width, ROW));
                    ui.add(Label::new(text).truncate()).on_hover_text(field.tip);
                });
                content(ui)
            })
            .inner
    }

    pub(super) fn id_of(&self, field: &Field<'_>) -> Id {
        self.scope.with(field.name())
    }

    pub(super) fn note(
        &mut self,
        change: &'static str,
        id: Id,
        text: Option<String>,
        base: String,
    ) {
        self.noted = Some(Noted { change, id, text, base });
    }
}

//! A quantity to be typed.

use eframe::egui::{Id, Ui};

use super::DIFFERS;
use super::entry::{Entry, Wrong};
use crate::document::file::MAX_BAY_MM;
use crate::units::{Length, Measure, Shown};

/// What a quantity may be.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::app) enum Range {
    /// Anything.
    Any,
    /// 0 or more.
    NotNegative,
    /// More than 0.
    Positive,
    /// 0 to 180.
    HalfTurn,
}

/// No number of a bay is larger; the file refuses them.
const LARGEST: f64 = 1e9;

impl Range {
    fn check(self, value: f64, measure: Measure) -> Result<f64, Wrong> {
        if let Measure::Length(unit) = measure
            && value.abs() > MAX_BAY_MM
        {
            let most = Length::from_mm(MAX_BAY_MM).show(unit);
            return Err(Wrong::whole(format!("no more than {most} is expected: no bay is larger")));
        }
        let wanted = match self {
            _ if value.abs() > LARGEST => "this number is too large",
            Self::NotNegative if value < 0.0 => "0 or more is expected here",
            Self::Positive if value <= 0.0 => "more than 0 is expected here",
            Self::HalfTurn if !(0.0..=180.0).contains(&value) => "0 to 180° is expected here",
            _ => return Ok(value),
        };
        Err(Wrong::whole(wanted))
    }

    /// The value of a step that went too far.
    fn hold(self, value: f64) -> f64 {
        match self {
            // A step that would leave nothing of a size is refused, not held.
            Self::Any | Self::Positive => value,
            Self::NotNegative => value.max(0.0),
            Self::HalfTurn => value.clamp(0.0, 180.0),
        }
    }
}

/// A quantity field, but for where it stands.
pub(super) struct Figure<'a> {
    pub(super) id: Id,
    pub(super) name: &'a str,
    pub(super) tip: &'a str,
    pub(super) measure: Measure,
    pub(super) range: Range,
    pub(super) prefix: &'a str,
    pub(super) suffix: &'a str,
    /// Shown where it is absent.
    pub(super) hint: &'a str,
    /// Whether it may be absent.
    pub(super) optional: bool,
    pub(super) width: f32,
}

/// A new value, and what is needed to put it back into the field should it be refused after all.
pub(super) struct Changed<T> {
    pub(super) value: T,
    pub(super) text: String,
    pub(super) base: String,
}

/// The value that several things have in common: outer none where they differ.
pub(super) type Common = Option<Option<f64>>;

/// A quantity field of the window alone: what is typed into it is no change of the bay.
pub(in crate::app) struct Loose<'a> {
    pub(in crate::app) id: Id,
    pub(in crate::app) name: &'a str,
    pub(in crate::app) tip: &'a str,
    pub(in crate::app) measure: Measure,
    /// What stands in where it is empty.
    pub(in crate::app) hint: &'a str,
    pub(in crate::app) width: f32,
}

impl Loose<'_> {
    /// Shows it, 0 or more or empty, and takes a new value in; tells what is wrong with what was
    /// typed.
    pub(in crate::app) fn show(&self, ui: &mut Ui, value: &mut Option<f64>) -> Option<String> {
        let figure = Figure {
            id: self.id,
            name: self.name,
            tip: self.tip,
            measure: self.measure,
            range: Range::NotNegative,
            prefix: "",
            suffix: self.measure.sign(),
            hint: self.hint,
            optional: true,
            width: self.width,
        };
        let (changed, wrong) = figure.show(ui, Some(*value));
        if let Some(changed) = changed {
            *value = changed.value;
        }
        wrong.map(|wrong| wrong.said)
    }
}

impl Figure<'_> {
    /// Shows it; tells a new value, and what is wrong with what was typed.
    pub(super) fn show(
        &self,
        ui: &mut Ui,
        now: Common,
    ) -> (Option<Changed<Option<f64>>>, Option<Wrong>) {
        let value = now.flatten();
        let typed = value.map(|value| self.measure.typed(value)).unwrap_or_default();
        let shown = value.map(|value| shown(self.measure, value)).unwrap_or_default();
        let whole = value.filter(|value| !self.measure.shown(*value).is_exact);
        let tip = match whole {
            Some(value) => {
                format!("{}\n\nRounded; exactly {}", self.tip, exactly(self.measure, value))
            }
            None => self.tip.to_owned(),
        };
        let entry = Entry {
            id: self.id,
            name: self.name,
            tip: &tip,
            shown: &shown,
            typed: &typed,
            prefix: self.prefix,
            suffix: self.suffix,
            hint: if now.is_none() { DIFFERS } else { self.hint },
            width: self.width,
            is_narrow: !self.prefix.is_empty(),
            steps: true,
        };
        let mut given = entry.show(ui);
        if let Some((steps, text)) = given.steps.take() {
            return self.stepped(ui, given, value, steps, &text, typed);
        }
        let Some(text) = given.text.take() else {
            let wrong = given.wrong().cloned();
            given.keep(ui);
            return (None, wrong);
        };
        match self.read(&text) {
            Ok(new) => {
                given.taken(ui);
                let same = now == Some(new);
                let changed = (!same).then_some(Changed { value: new, text, base: typed });
                (changed, None)
            }
            Err(wrong) => {
                given.refused(ui, text, wrong.clone());
                (None, Some(wrong))
            }
        }
    }

    fn stepped(
        &self,
        ui: &Ui,
        given: super::entry::Given,
        value: Option<f64>,
        steps: i32,
        text: &str,
        base: String,
    ) -> (Option<Changed<Option<f64>>>, Option<Wrong>) {
        let from = self.read(text).ok().flatten().or(value);
        let to = from.map(|from| self.range.hold(self.measure.step(from, steps)));
        let to = to.filter(|to| Some(*to) != value && self.range.check(*to, self.measure).is_ok());
        given.keep(ui);
        let text = to.map(|to| self.measure.typed(to)).unwrap_or_default();
        (to.map(|to| Changed { value: Some(to), text, base }), None)
    }

    fn read(&self, text: &str) -> Result<Option<f64>, Wrong> {
        if self.optional && text.trim().is_empty() {
            return Ok(None);
        }
        let read = text.trim_start().trim_start_matches('\u{2248}');
        self.range.check(self.measure.parse(read)?, self.measure).map(Some)
    }
}

fn shown(measure: Measure, value: f64) -> String {
    let Shown { text, is_exact } = measure.shown(value);
    if is_exact { text } else { format!("\u{2248}\u{2009}{text}") }
}

/// The whole of a value that is shown rounded, with its unit.
fn exactly(measure: Measure, value: f64) -> String {
    let typed = measure.typed(value);
    if typed.ends_with(char::is_alphabetic) { typed } else { format!("{typed} {}", measure.sign()) }
}

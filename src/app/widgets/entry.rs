//! One line of text that is typed into: what all fields with text have in common.
//!
//! Click or Tab marks all of it; Enter or leaving it gives the text away; Escape puts back what was
//! there. What is wrong stays in the field, with the reason, until it is fixed or put back.

use std::ops::Range;

use eframe::egui::{
    self, EventFilter, Id, Key, Modifiers, Response, RichText, Stroke, TextBuffer, TextEdit, Ui,
    text::{CCursorRange, LayoutJob, TextFormat, TextWrapping},
    text_edit::TextEditState,
};

use crate::app::theme::{self, size};
use crate::units::ParseError;

/// What is wrong with what was typed.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Wrong {
    /// In words.
    pub(super) said: String,
    /// The place in the text, bytes; none where all of it is.
    pub(super) range: Option<Range<usize>>,
}

impl Wrong {
    /// All of it is wrong.
    pub(super) fn whole(said: impl Into<String>) -> Self {
        Self { said: said.into(), range: None }
    }
}

impl From<ParseError> for Wrong {
    fn from(error: ParseError) -> Self {
        Self { said: error.beside(), range: Some(error.range()) }
    }
}

/// What a field remembers while it is typed into, or while something is wrong with it.
#[derive(Debug, Clone, Default)]
struct State {
    /// The text in the field where it is not what the value gives.
    text: Option<String>,
    /// What the value gave when the text was begun.
    base: String,
    wrong: Option<Wrong>,
    /// It has just been entered: all of it is to be marked.
    fresh: bool,
    /// When it was last shown: a field that was away begins again, unless something is wrong with it.
    pass: u64,
}

/// A field to be shown.
pub(super) struct Entry<'a> {
    pub(super) id: Id,
    /// For screen readers.
    pub(super) name: &'a str,
    pub(super) tip: &'a str,
    /// The value as it is read.
    pub(super) shown: &'a str,
    /// The value as it is changed: it means the same to the last digit.
    pub(super) typed: &'a str,
    pub(super) prefix: &'a str,
    pub(super) suffix: &'a str,
    /// Shown while it is empty.
    pub(super) hint: &'a str,
    pub(super) width: f32,
    /// Whether it shares its line with others: then it is lettered a little smaller.
    pub(super) is_narrow: bool,
    /// Whether the arrow keys up and down step the value.
    pub(super) steps: bool,
}

/// What came of showing a field.
pub(super) struct Given {
    /// A text that is not what the value gives, to be read.
    pub(super) text: Option<String>,
    /// Steps asked for by arrow keys, and the text to step from.
    pub(super) steps: Option<(i32, String)>,
    response: Response,
    state: State,
    enter: bool,
}

impl Entry<'_> {
    /// Shows it.
    pub(super) fn show(&self, ui: &mut Ui) -> Given {
        let mut state = self.state(ui);
        let focused = ui.memory(|memory| memory.has_focus(self.id));
        let keys = if focused { Keys::take(ui, self.steps) } else { Keys::default() };
        if keys.escape {
            state = State { base: state.base, pass: state.pass, ..State::default() };
            ui.memory_mut(|memory| memory.surrender_focus(self.id));
        }
        let unchanged = if focused && !keys.escape { self.typed } else { self.shown };
        let mut text = state.text.clone().unwrap_or_else(|| unchanged.to_owned());
        let response = self.edit(ui, &mut text, state.wrong.as_ref());
        // What was typed is given away before what is pressed elsewhere is acted on.
        let pressed_elsewhere = response.has_focus()
            && !response.contains_pointer()
            && ui.input(|input| input.pointer.any_pressed());
        if pressed_elsewhere {
            response.surrender_focus();
        }
        let leaves = keys.enter
            || pressed_elsewhere
            || response.lost_focus()
            || (response.changed() && !focused);
        if response.changed() {
            state.text = Some(text.clone());
            state.wrong = None;
        }
        if response.gained_focus() {
            state.fresh = true;
            let begun = state.text.get_or_insert_with(|| self.typed.to_owned());
            text.clone_from(begun);
            response.scroll_to_me(None);
            ui.ctx().request_repaint();
        }
        self.mark_all(ui, &response, &mut state, &text);
        let given = state.text.take_if(|_| leaves);
        let is_new = given.as_deref().is_some_and(|given| given.trim() != self.typed.trim());
        let steps = (keys.steps != 0).then_some((keys.steps, text));
        if given.is_some() && !is_new {
            state.wrong = None;
        }
        if keys.enter && !is_new {
            response.surrender_focus();
        }
        let text = given.filter(|_| is_new);
        Given { text, steps, response, state, enter: keys.enter }
    }

    /// What is remembered, where the field was there in the pass before and its value has stayed. What was
    /// refused waits for the field to come back.
    fn state(&self, ui: &Ui) -> State {
        let pass = ui.ctx().cumulative_pass_nr();
        let old: Option<State> = ui.data(|data| data.get_temp(self.id));
        let old = old.filter(|old| old.wrong.is_some() || pass - old.pass <= 1);
        let fresh = old.as_ref().is_some_and(|old| old.base != self.typed);
        let kept = old.filter(|old| old.base == self.typed).unwrap_or_else(|| State {
            base: self.typed.to_owned(),
            // A value that was stepped, or changed from outside, is marked whole again.
            fresh: fresh && ui.memory(|memory| memory.has_focus(self.id)),
            ..State::default()
        });
        State { pass, ..kept }
    }

    /// The line of text itself.
    fn edit(&self, ui: &mut Ui, text: &mut String, wrong: Option<&Wrong>) -> Response {
        let colours = theme::palette(ui);
        let small = |text: &str| RichText::new(text).size(size::SMALL).color(colours.soft);
        let (lettering, margin) =
            if self.is_narrow { (size::SMALL + 0.5, 4) } else { (size::GROUP, 6) };
        // A long text ends in "…" while nobody types into it.
        let is_typed_into = ui.memory(|memory| memory.has_focus(self.id));
        let room = self.width - 2.0 * f32::from(margin);
        let place = wrong.map(|wrong| wrong.range.clone().unwrap_or(0..text.len()));
        let mut layouter = |ui: &Ui, text: &dyn TextBuffer, _wrap: f32| {
            let mut job = laid_out(ui, text.as_str(), lettering, place.as_ref());
            if !is_typed_into && self.prefix.is_empty() && self.suffix.is_empty() {
                job.wrap = TextWrapping::truncate_at_width(room);
            }
            ui.fonts_mut(|fonts| fonts.layout_job(job))
        };
        let filter = EventFilter {
            tab: false,
            escape: true,
            horizontal_arrows: true,
            vertical_arrows: true,
        };
        let edit = TextEdit::singleline(text)
            .id(self.id)
            .desired_width(self.width)
            .hint_text(RichText::new(self.hint).size(size::GROUP))
            .margin(egui::Margin::symmetric(margin, 4))
            .event_filter(filter)
            .return_key(None)
            .layouter(&mut layouter);
        let edit = if self.prefix.is_empty() { edit } else { edit.prefix(small(self.prefix)) };
        let edit = if self.suffix.is_empty() { edit } else { edit.suffix(small(self.suffix)) };
        let response = edit.show(ui).response.response;
        if wrong.is_some() {
            let stroke = Stroke::new(1.5, colours.fail);
            ui.painter().rect_stroke(response.rect, 4.0, stroke, egui::StrokeKind::Inside);
        }
        let response = response.accessible_name(self.name);
        if self.tip.is_empty() { response } else { response.on_hover_text(self.tip) }
    }

    /// Marks all of a field just entered, once the pointer has let go of it.
    fn mark_all(&self, ui: &Ui, response: &Response, state: &mut State, text: &str) {
        if !state.fresh || !response.has_focus() {
            return;
        }
        if response.dragged() && response.drag_delta() != egui::Vec2::ZERO {
            // A stretch of it is being marked by hand.
            state.fresh = false;
            return;
        }
        let mut edit = TextEditState::load(ui.ctx(), self.id).unwrap_or_default();
        edit.cursor.set_char_range(Some(CCursorRange::select_all_str(text)));
        edit.store(ui.ctx(), self.id);
        state.fresh = ui.input(|input| input.pointer.any_down());
    }
}

impl Given {
    /// The text was taken: the field shows the value again.
    pub(super) fn taken(mut self, ui: &Ui) {
        self.state.wrong = None;
        if self.enter {
            self.response.surrender_focus();
        }
        self.keep(ui);
    }

    /// The text was refused: it stays in the field, with the reason.
    pub(super) fn refused(mut self, ui: &Ui, text: String, wrong: Wrong) {
        self.state.text = Some(text);
        self.state.wrong = Some(wrong);
        self.keep(ui);
    }

    /// What is wrong with it as it was last given.
    pub(super) fn wrong(&self) -> Option<&Wrong> {
        self.state.wrong.as_ref()
    }

    /// Nothing was given, or a step that was taken.
    pub(super) fn keep(self, ui: &Ui) {
        let id = self.response.id;
        ui.data_mut(|data| data.insert_temp(id, self.state));
    }
}

/// Puts a text that was taken at first back into the field of this id, with the reason.
pub(super) fn refuse(ui: &Ui, id: Id, text: Option<String>, base: String, wrong: Wrong) {
    let pass = ui.ctx().cumulative_pass_nr();
    let state = State { text, base, wrong: Some(wrong), fresh: false, pass };
    ui.data_mut(|data| data.insert_temp(id, state));
}

/// What is wrong with a field that has no text of its own; `base` stands for its value.
pub(super) fn standing_refusal(ui: &Ui, id: Id, base: &str) -> Option<Wrong> {
    let pass = ui.ctx().cumulative_pass_nr();
    let mut state: State = ui.data(|data| data.get_temp(id))?;
    if pass - state.pass > 1 || state.base != base {
        ui.data_mut(|data| data.remove_temp::<State>(id));
        return None;
    }
    state.pass = pass;
    let wrong = state.wrong.clone();
    ui.data_mut(|data| data.insert_temp(id, state));
    wrong
}

/// Keys that a field acts on itself.
#[derive(Default)]
struct Keys {
    enter: bool,
    escape: bool,
    steps: i32,
}

impl Keys {
    fn take(ui: &Ui, steps: bool) -> Self {
        ui.input_mut(|input| {
            let mut net = 0;
            if steps {
                // Shift in excess is ignored when keys are matched: it goes first.
                for (modifiers, by) in [(Modifiers::SHIFT, 10), (Modifiers::NONE, 1)] {
                    let up = input.count_and_consume_key(modifiers, Key::ArrowUp);
                    let down = input.count_and_consume_key(modifiers, Key::ArrowDown);
                    let count = |keys: usize| i32::try_from(keys).unwrap_or_default();
                    net += (count(up) - count(down)) * by;
                }
            }
            Self {
                enter: input.consume_key(Modifiers::NONE, Key::Enter),
                escape: input.consume_key(Modifiers::NONE, Key::Escape),
                steps: net,
            }
        })
    }
}

/// The text with the wrong place underlined.
fn laid_out(ui: &Ui, text: &str, lettering: f32, place: Option<&Range<usize>>) -> LayoutJob {
    let colours = theme::palette(ui);
    let plain = TextFormat::simple(theme::font(lettering), colours.ink);
    let wrong = TextFormat {
        color: colours.fail,
        underline: Stroke::new(1.5, colours.fail),
        ..plain.clone()
    };
    let mut job = LayoutJob { break_on_newline: false, ..LayoutJob::default() };
    job.keep_trailing_whitespace = true;
    let place =
        place.filter(|place| text.get((*place).clone()).is_some_and(|part| !part.is_empty()));
    let Some(place) = place else {
        job.append(text, 0.0, plain);
        return job;
    };
    let (before, after) = (text.get(..place.start), text.get(place.end..));
    job.append(before.unwrap_or_default(), 0.0, plain.clone());
    job.append(text.get(place.clone()).unwrap_or_default(), 0.0, wrong);
    job.append(after.unwrap_or_default(), 0.0, plain);
    job
}

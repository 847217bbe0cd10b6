//! The table of hoses: what each is, its cut length, its worst finding.

use eframe::egui::{
    Align2, Color32, CornerRadius, Painter, Pos2, Rect, Role, ScrollArea, Sense, Ui, WidgetInfo,
    pos2, vec2,
};

use super::{sheet, soft};
use crate::app::actions::{Action, Listed};
use crate::app::canvas::thing::Thing;
use crate::app::seen::Seen;
use crate::app::solved::Solved;
use crate::app::theme::icons::{self, State};
use crate::app::theme::{self, size};
use crate::app::words;
use crate::engine::hose_kind;
use crate::model::{Bay, Run};
use crate::units::Length;

/// Height of a line of the table, by the room there is in the window.
fn line_height(window_height: f32) -> f32 {
    if window_height < SMALL_WINDOW { 27.0 } else { 46.0 }
}

/// Below this height of the window a hose has one line, not two.
const SMALL_WINDOW: f32 = 900.0;
const GAP: f32 = 2.0;

/// The height that shows so many hoses without scrolling.
pub(in crate::app) fn hoses_height(lines: usize, window_height: f32) -> f32 {
    // Below the lines stands what is not checked.
    const BELOW: f32 = 64.0;
    52.0 + BELOW + lines as f32 * (line_height(window_height) + GAP)
}

pub(in crate::app) fn hoses(ui: &mut Ui, seen: &Seen<'_>, actions: &mut Vec<Action>) {
    let (Some(document), Some(solved)) = (&seen.work.document, &seen.work.solved) else { return };
    let colours = theme::palette(ui);
    let bay = document.bay();
    let Some(routing) = bay.routings.get(seen.work.routing) else { return };
    sheet(colours).show(ui, |ui| {
        ui.set_min_size(ui.available_size());
        super::findings::tabs(ui, seen, solved, actions);
        if seen.work.listed == Listed::Findings {
            super::findings::list(ui, seen, solved, actions);
            return;
        }
        ScrollArea::vertical().auto_shrink([false, false]).show(ui, |ui| {
            if routing.runs.is_empty() {
                empty(ui);
            }
            ui.spacing_mut().item_spacing.y = GAP;
            for (index, run) in routing.runs.iter().enumerate() {
                let line = || Line::of(bay, run, index, solved);
                let selected = seen.work.selected.run.as_deref() == Some(run.id.as_str());
                if show(ui, &line, selected) {
                    actions.push(Action::Select(Thing::Hose(run.id.clone())));
                }
            }
            if !routing.runs.is_empty() {
                ui.add_space(4.0);
                ui.add(eframe::egui::Label::new(soft(NOT_CHECKED, colours)).wrap());
            }
        });
    });
}

/// No finding is no approval: what this version does not look at is said beside the verdicts.
const NOT_CHECKED: &str = "Not checked: the hose's weight, twist and set, seats and threads, and \
                           whatever is not drawn here";

fn empty(ui: &mut Ui) {
    let colours = theme::palette(ui);
    ui.add_space(6.0);
    ui.label("No hose in this bay yet.");
    ui.label(soft(
        "P adds a port: press where the seat is and drag the way the hose leaves. With two ports, H draws a hose from one to the other; then drag the hose to pull a bend out of it. K draws an obstacle. A sample (File, Open a sample) is a good start too.",
        colours,
    ));
}

/// What a line of the table says.
struct Line<'a> {
    name: &'a str,
    hose: String,
    cut: String,
    state: State,
    verdict: String,
}

impl<'a> Line<'a> {
    fn of(bay: &Bay, run: &'a Run, index: usize, solved: &Solved) -> Self {
        let kind = hose_kind(bay, &run.hose).map_or(run.hose.as_str(), |kind| kind.name.as_str());
        let verdict = solved.answer.verdict_on(index);
        let state = verdict.worst().filter(|severity| *severity != crate::checks::Severity::Note);
        let cut = solved.answer.solution.run(index).map(|run| Length::from_mm(run.cut_length_mm));
        Self {
            name: words::run_name(run),
            hose: format!("{} {kind}", words::dash(run.dash)),
            cut: cut.map_or_else(|| "\u{2013}".to_owned(), |cut| cut.bench(bay.show_units)),
            state: state.map_or(State::Holds, State::from),
            verdict: if cut.is_some() {
                verdict.in_short()
            } else {
                "cannot be calculated".to_owned()
            },
        }
    }

    fn said(&self) -> String {
        format!("{}, {}, {}, {}", self.name, self.hose, self.cut, self.verdict)
    }

    /// In one line: what is wrong is told by the shape before the name, and in words beside it.
    fn paint_short(&self, ui: &Ui, rect: Rect) {
        let colours = theme::palette(ui);
        let painter = ui.painter();
        let middle = rect.center().y;
        icons::paint(painter, pos2(rect.min.x + 12.0, middle), 4.5, self.state, colours);
        let right = Align2::RIGHT_CENTER;
        let (font, ink) = (theme::font(size::GROUP + 1.0), colours.ink);
        let cut = painter.text(pos2(rect.max.x - 8.0, middle), right, &self.cut, font, ink);
        let left = pos2(rect.min.x + 25.0, middle);
        line(painter, left, self.name, size::GROUP, ink, cut.min.x - 8.0);
    }

    fn paint(&self, ui: &Ui, rect: Rect) {
        let colours = theme::palette(ui);
        let painter = ui.painter();
        let (left, right) = (rect.min.x + 10.0, rect.max.x - 10.0);
        let (upper, lower) = (rect.min.y + 15.0, rect.min.y + 34.0);
        let cut = painter.text(
            pos2(right, upper),
            Align2::RIGHT_CENTER,
            &self.cut,
            theme::font(size::HEADING),
            colours.ink,
        );
        let verdict = painter.text(
            pos2(right, lower),
            Align2::RIGHT_CENTER,
            &self.verdict,
            theme::font(size::SMALL),
            self.state.colour(colours),
        );
        let icon = pos2(verdict.min.x - 11.0, lower);
        icons::paint(painter, icon, 4.5, self.state, colours);
        let name = size::GROUP + 0.5;
        line(painter, pos2(left, upper), self.name, name, colours.ink, cut.min.x - 8.0);
        line(painter, pos2(left, lower), &self.hose, size::SMALL, colours.soft, icon.x - 10.0);
    }
}

/// Text from a place on, as far as there is room.
fn line(painter: &Painter, left: Pos2, text: &str, size: f32, ink: Color32, until: f32) {
    let galley = theme::one_line(painter, text, size, ink, until - left.x);
    let corner = left - vec2(0.0, galley.size().y / 2.0);
    painter.galley(corner, galley, ink);
}

/// A line of the table; what it says is calculated only where it is seen or read out. Says whether it was
/// clicked.
fn show<'a>(ui: &mut Ui, line: &dyn Fn() -> Line<'a>, selected: bool) -> bool {
    let colours = theme::palette(ui);
    let window_height = ui.ctx().content_rect().height();
    let size = vec2(ui.available_width(), line_height(window_height));
    let (rect, response) = ui.allocate_exact_size(size, Sense::click());
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, selected, line().said()));
    let is_told = response.hovered() || ui.ctx().has_accesskit_node(response.id);
    let response = if is_told { response.on_hover_text(line().said()) } else { response };
    if !ui.is_rect_visible(rect) {
        return response.clicked();
    }
    let fill = match (selected, response.hovered() || response.has_focus()) {
        (true, _) => Some(colours.accent_faint),
        (false, true) => Some(colours.hover),
        (false, false) => None,
    };
    if let Some(fill) = fill {
        ui.painter().rect_filled(rect, CornerRadius::same(4), fill);
    }
    if response.has_focus() {
        let stroke = eframe::egui::Stroke::new(1.5, colours.accent);
        let inside = eframe::egui::StrokeKind::Inside;
        ui.painter().rect_stroke(rect, CornerRadius::same(4), stroke, inside);
    }
    let line = line();
    if window_height < SMALL_WINDOW {
        line.paint_short(ui, rect);
    } else {
        line.paint(ui, rect);
    }
    response.clicked()
}

//! A heading that folds away what is below it.

use eframe::egui::{
    Align, FontSelection, Id, Layout, RichText, Role, Sense, Shape, Stroke, TextWrapMode, Ui,
    WidgetInfo, WidgetText, pos2, vec2,
};

use super::form::Form;
use crate::app::theme::{self, size};

const HEIGHT: f32 = 26.0;
const INDENT: f32 = 16.0;

const REFUSED: &str = "\u{25a0} a value was refused";

/// What stands beside a title.
#[derive(Clone, Copy)]
enum Beside<'a> {
    Summary(&'a str),
    /// A value that was refused is below.
    Refused,
}

impl Form<'_> {
    /// Fields that can be folded away under a title; a summary stands beside it.
    pub(in crate::app) fn section(
        &mut self,
        title: &str,
        summary: &str,
        open: bool,
        fields: impl FnOnce(&mut Form<'_>),
    ) {
        // A value that was refused is not folded away in silence.
        let refused = self.scope().with(("refused", title));
        let has_refused = self.ui().data(|data| data.get_temp::<bool>(refused)).unwrap_or(false);
        let beside = if has_refused { Beside::Refused } else { Beside::Summary(summary) };
        if is_unfolded(self.ui(), title, beside, open) {
            let mut has_refused = false;
            self.within(title, |form| {
                fields(form);
                has_refused = form.has_refused();
            });
            self.ui().data_mut(|data| data.insert_temp(refused, has_refused));
            self.ui().add_space(6.0);
        }
    }
}

/// What can be folded away under a title.
pub(in crate::app) fn folded(
    ui: &mut Ui,
    title: &str,
    summary: &str,
    open: bool,
    content: impl FnOnce(&mut Ui),
) {
    if is_unfolded(ui, title, Beside::Summary(summary), open) {
        content(ui);
        ui.add_space(6.0);
    }
}

/// The heading; a fold stays as it is for all things of one kind. Says whether it is open.
fn is_unfolded(ui: &mut Ui, title: &str, beside: Beside<'_>, open: bool) -> bool {
    let id = ui.scope_id().with(("section", title));
    let mut is_open = ui.data(|data| data.get_temp::<bool>(id)).unwrap_or(open);
    if heading(ui, id, title, beside, is_open) {
        is_open = !is_open;
        ui.data_mut(|data| data.insert_temp(id, is_open));
    }
    is_open
}

/// The line to click; says whether it was.
fn heading(ui: &mut Ui, id: Id, title: &str, beside: Beside<'_>, is_open: bool) -> bool {
    let colours = theme::palette(ui);
    let (_, rect) = ui.allocate_space(vec2(ui.available_width(), HEIGHT));
    let response = ui.interact(rect, id.with("heading"), Sense::click());
    let (summary, said) = match beside {
        Beside::Summary(summary) => (summary, title.to_owned()),
        Beside::Refused => (REFUSED, format!("{title}: {REFUSED}")),
    };
    response.widget_info(|| WidgetInfo::selected(Role::Button, true, is_open, &said));
    let painter = ui.painter();
    painter.hline(rect.x_range(), rect.top(), (1.0, colours.hairline));
    if response.hovered() {
        painter.rect_filled(rect.shrink2(vec2(0.0, 2.0)), 3.0, colours.hover);
    }
    if response.has_focus() {
        let stroke = Stroke::new(2.0, colours.accent);
        painter.rect_stroke(rect.shrink(1.0), 3.0, stroke, eframe::egui::StrokeKind::Inside);
    }
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    let at = pos2(rect.left() + 6.0, rect.center().y);
    let triangle = if is_open {
        [vec2(-4.0, -2.5), vec2(4.0, -2.5), vec2(0.0, 3.0)]
    } else {
        [vec2(-2.5, -4.0), vec2(3.0, 0.0), vec2(-2.5, 4.0)]
    };
    let points = triangle.map(|corner| at + corner).to_vec();
    painter.add(Shape::convex_polygon(points, colours.soft, Stroke::NONE));
    let mut left = rect.left() + INDENT;
    let texts = [(title, size::GROUP, colours.ink), (summary, size::SMALL, colours.soft)];
    for (text, size, colour) in texts {
        let room = rect.right() - left;
        let text = WidgetText::from(RichText::new(text).size(size).color(colour));
        let wrap = Some(TextWrapMode::Truncate);
        let galley = text.into_galley(ui, wrap, room, FontSelection::Default);
        let place =
            Layout::left_to_right(Align::Center).align_size_within_rect(galley.size(), rect);
        ui.painter().galley(pos2(left, place.min.y), galley.clone(), colour);
        left += galley.size().x + 10.0;
    }
    response.on_hover_text(if is_open { "Hide" } else { "Show" }).clicked()
}

//! What was just done, in the lower corner of the window.

use std::time::Duration;

use eframe::egui::{Align2, Area, Frame, Id, RichText, Ui};

use crate::app::actions::Action;
use crate::app::theme::{self, size};
use crate::app::told::Notice;
use crate::units::shown_path;

/// How long it stays, seconds; longer where there is a file to open.
const STAYS: f64 = 10.0;
const STAYS_WITH_FILE: f64 = 30.0;

/// Until it is dismissed or has been read: it goes by itself, but not from under the pointer.
pub(super) fn notice(ui: &mut Ui, notice: &mut Option<Notice>, actions: &mut Vec<Action>) {
    let Some(notice) = notice else { return };
    let now = ui.input(|i| i.time);
    // Over the drawing's lower corner: never over the bench strip.
    let above = super::bench_height(ui.ctx().content_rect().height()) + 20.0;
    let place = Area::new(Id::unique("notice")).anchor(Align2::LEFT_BOTTOM, [128.0, -above]);
    let shown =
        place.show(ui, |ui| Frame::popup(ui.style()).show(ui, |ui| say(ui, notice, actions)));
    if notice.since.is_none() || shown.response.contains_pointer() {
        notice.since = Some(now);
    }
    let stays = if notice.file.is_some() { STAYS_WITH_FILE } else { STAYS };
    let left = stays - (now - notice.since.unwrap_or(now));
    if left <= 0.0 {
        actions.push(Action::CloseNotice);
    } else {
        ui.ctx().request_repaint_after(Duration::from_secs_f64(left));
    }
}

fn say(ui: &mut Ui, notice: &Notice, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    ui.horizontal(|ui| {
        ui.label(RichText::new(&notice.text).color(colours.good).size(size::SMALL));
        if let Some(file) = &notice.file {
            let open = ui.link(RichText::new("Open").size(size::SMALL));
            if open.on_hover_text(shown_path(file)).clicked() {
                actions.push(Action::Show(file.clone()));
            }
        }
        if ui.link(RichText::new("Dismiss").size(size::SMALL)).clicked() {
            actions.push(Action::CloseNotice);
        }
    });
}

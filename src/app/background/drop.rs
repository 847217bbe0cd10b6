//! Files dropped on the window, and what is said while they hover over it.

use eframe::egui::{self, Align2, Id, LayerId, Order, StrokeKind, Ui, vec2};
use glam::{DVec2, dvec2};

use crate::app::actions::Action;
use crate::app::canvas::camera::View;
use crate::app::theme::{self, size};
use crate::app::work::Work;

impl Work {
    /// Hears of files that hover or were dropped.
    pub(in crate::app) fn hear_drops(&self, ui: &Ui, actions: &mut Vec<Action>) {
        let (files, hovers) = ui.input(|i| {
            let files = i.raw.dropped_files.iter().map(|file| file.path().to_owned());
            (files.collect::<Vec<_>>(), !i.raw.hovered_files.is_empty())
        });
        // Some desktops do not tell where files hover; then the view last used is taken.
        let at = ui.input(|i| i.pointer.latest_pos());
        let on = at.and_then(|at| self.view_at(dvec2(f64::from(at.x), f64::from(at.y))));
        if hovers {
            self.say_where(ui, on.map(|(view, _)| view));
        }
        if !files.is_empty() {
            actions.push(Action::Dropped { files, on });
        }
    }

    /// The view at a place of the screen, and what that place is in its plane, mm.
    fn view_at(&self, at: DVec2) -> Option<(View, DVec2)> {
        self.document.as_ref()?;
        View::ALL.into_iter().find_map(|view| {
            let area = self.canvas.areas[view.index()];
            let camera = self.canvas.cameras.of(view);
            area.contains(at).then(|| (view, camera.from_screen(area, at)))
        })
    }

    fn say_where(&self, ui: &Ui, on: Option<View>) {
        let colours = theme::palette(ui);
        let view = on.unwrap_or(self.canvas.active);
        let (frame, said) = if self.document.is_some() {
            let area = self.canvas.areas[view.index()];
            let corner = |p: DVec2| egui::pos2(p.x as f32, p.y as f32);
            let frame = egui::Rect::from_min_max(corner(area.min), corner(area.max));
            let name = view.name().to_lowercase();
            (frame, format!("Drop it: a photo or outline goes under the {name} view"))
        } else {
            let said = "Drop a bay to open it, or a photo to begin one".to_owned();
            (ui.ctx().content_rect().shrink(12.0), said)
        };
        let layer = LayerId::new(Order::Tooltip, Id::unique("drop hint"));
        let painter = ui.ctx().layer_painter(layer);
        let edge = egui::Stroke::new(2.0, colours.accent);
        painter.rect_stroke(frame, 4.0, edge, StrokeKind::Inside);
        let font = theme::font(size::GROUP);
        let galley = painter.layout_no_wrap(said, font, colours.ink);
        let place = Align2::CENTER_CENTER.anchor_size(frame.center(), galley.size());
        let thin = egui::Stroke::new(1.0, colours.accent);
        let behind = place.expand2(vec2(12.0, 8.0));
        painter.rect(behind, 4.0, colours.sheet, thin, StrokeKind::Middle);
        painter.galley(place.min, galley, colours.ink);
    }
}

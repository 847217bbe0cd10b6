//! What is being drawn and is no part of the bay yet: a hose that is begun, a measurement, a rectangle.

use eframe::egui::{Align2, Painter, Shape, Stroke};
use glam::{DVec2, DVec3};

use super::super::Looking;
use super::super::layout::ViewLayout;
use super::{at, on_paper, selected};
use crate::app::theme::Palette;
use crate::app::tools::drag::{Held, measure_lines};

pub(in super::super) fn under_way(
    painter: &Painter,
    layout: &ViewLayout,
    looking: &Looking<'_>,
    colours: &Palette,
) {
    let on_screen = |p: DVec3| layout.camera.to_screen(layout.area, layout.view.project(p));
    if let Some(sketch) = looking.sketch {
        let first = looking.bay.port(&sketch.port).map(|port| port.at);
        let points =
            first.into_iter().chain(sketch.corners.iter().copied()).chain([sketch.towards]);
        let points: Vec<DVec2> = points.map(on_screen).collect();
        line(painter, &points, colours);
        for corner in points.iter().skip(1) {
            painter.circle(at(*corner), 3.5, colours.sheet, Stroke::new(1.5, colours.accent));
        }
    }
    let held = looking.drag.filter(|drag| drag.view == layout.view);
    match held.map(|drag| (&drag.held, drag)) {
        Some((Held::Frame { .. }, drag)) => {
            let to = layout.camera.to_screen(layout.area, drag.pointer);
            selected::frame(painter, on_screen(drag.from), to, colours);
        }
        Some((Held::Measure, drag)) => {
            line(painter, &[on_screen(drag.from), on_screen(drag.place)], colours);
        }
        _ => {}
    }
    if let (Some((view, from, to)), None) = (looking.measurement, held) {
        let ends = [on_screen(from), on_screen(to)];
        line(painter, &ends, colours);
        for end in ends {
            painter.circle(at(end), 3.0, colours.sheet, Stroke::new(1.5, colours.accent));
        }
        if view == layout.view {
            let middle = at((ends[0] + ends[1]) / 2.0);
            let said = measure_lines(from, to, looking.scene.unit).join("   ");
            on_paper(painter, middle, Align2::CENTER_BOTTOM, &said, colours.ink, colours);
        }
    }
}

fn line(painter: &Painter, points: &[DVec2], colours: &Palette) {
    let path: Vec<_> = points.iter().map(|p| at(*p)).collect();
    painter.extend(Shape::dashed_line(&path, Stroke::new(1.75, colours.accent), 6.0, 4.0));
}

//! What a finding says, in a box beside its place.

use std::sync::{Arc, Weak};

use eframe::egui::{
    Color32, CornerRadius, Galley, Painter, Pos2, Rect, Stroke, StrokeKind, Vec2, pos2, vec2,
};
use glam::DVec2;

use super::super::layout::{Marker, ViewLayout};
use super::super::scene::FindingMark;
use super::{at, rect};
use crate::app::theme::icons::{self, State};
use crate::app::theme::{self, Palette, size};
use crate::units::unbroken;

/// A box with its text, placed.
pub(in super::super) struct CallOut {
    /// Where it stands.
    pub(in super::super) frame: Rect,
    from: Pos2,
    state: State,
    colour: Color32,
    said: Arc<Galley>,
    /// How many more findings are here.
    more: Arc<Galley>,
}

/// Where a box was put, as long as its view is as it was; while something is moved it goes along.
#[derive(Debug, Clone, Default)]
pub(in super::super) struct BoxPlace(Option<(Weak<ViewLayout>, Marker, Rect)>);

impl BoxPlace {
    fn of(&self, layout: &Arc<ViewLayout>, marker: &Marker, size: Vec2) -> Option<Rect> {
        let (of, at, frame) = self.0.as_ref()?;
        let same = std::ptr::eq(of.as_ptr(), Arc::as_ptr(layout)) && at == marker;
        (same && (frame.size() - size).length() < 0.01).then_some(*frame)
    }

    /// Beside its place as it was beside it before, inside the view: also where it now speaks of another
    /// finding, for findings come and go while something is moved.
    fn along_with(&self, marker: &Marker, size: Vec2, view: Rect) -> Option<Rect> {
        let (_, before, frame) = self.0.as_ref()?;
        let moved = frame.min + (at(marker.at) - at(before.at));
        let last = (view.max - size).max(view.min);
        let frame = Rect::from_min_size(moved.clamp(view.min, last), size);
        (!frame.contains(at(marker.at))).then_some(frame)
    }
}

const WIDTH: f32 = 250.0;
const PAD: Vec2 = vec2(10.0, 7.0);

impl CallOut {
    /// Places it inside the view, if it can clear of `taken`: the name of the view and its buttons.
    pub(in super::super) fn new(
        painter: &Painter,
        layout: &Arc<ViewLayout>,
        (marker, finding): (&Marker, &FindingMark),
        moving: bool,
        taken: &[Rect],
        kept: &mut BoxPlace,
        colours: &Palette,
    ) -> Self {
        let state = State::from(finding.severity);
        let colour = state.colour(colours);
        let said = unbroken(&finding.of.message);
        let said = painter.layout(said, theme::font(size::GROUP), colour, WIDTH);
        let more = match marker.beside {
            0 => String::new(),
            more => format!("{more} more here: click the mark again"),
        };
        let is_alone = more.is_empty();
        let more = painter.layout(more, theme::font(size::SMALL), colours.soft, WIDTH);
        let below = if is_alone { 0.0 } else { more.size().y + 1.0 };
        let text = vec2(said.size().x.max(more.size().x), said.size().y + below);
        let from = at(marker.at);
        let size = text + 2.0 * PAD;
        let view = rect(layout.area).shrink(8.0);
        let frame = kept
            .of(layout, marker, size)
            .filter(|frame| !taken.iter().any(|taken| taken.intersects(*frame)))
            .or_else(|| kept.along_with(marker, size, view).filter(|_| moving))
            .unwrap_or_else(|| place_beside(from, size, view, taken, layout));
        *kept = BoxPlace(Some((Arc::downgrade(layout), marker.clone(), frame)));
        Self { frame, from, state, colour, said, more }
    }

    /// Paints it over the drawing.
    pub(in super::super) fn paint(self, painter: &Painter, colours: &Palette) {
        let stroke = Stroke::new(1.25, self.colour);
        painter.line_segment([self.from, self.frame.clamp(self.from)], stroke);
        icons::paint(painter, self.from, 6.5, self.state, colours);
        let round = CornerRadius::same(4);
        painter.rect(self.frame, round, colours.sheet, stroke, StrokeKind::Middle);
        let place = self.frame.min + PAD;
        let below = place + vec2(0.0, self.said.size().y + 1.0);
        painter.galley(place, self.said, self.colour);
        painter.galley(below, self.more, colours.soft);
    }
}

/// Of the places about a point, the one inside the view that covers the fewest names, ports and
/// hoses; a near one rather than a far one.
fn place_beside(point: Pos2, size: Vec2, view: Rect, taken: &[Rect], layout: &ViewLayout) -> Rect {
    let covered = |frame: &Rect| {
        let mut count = 0;
        for i in 0..=6_u8 {
            for j in 0..=2_u8 {
                let share = vec2(f32::from(i) / 6.0, f32::from(j) / 2.0);
                let p = frame.min + share * frame.size();
                let p = DVec2::new(f64::from(p.x), f64::from(p.y));
                count += u32::from(layout.hose_at(p).is_some());
            }
        }
        let ports = layout.ports.iter().filter(|port| frame.contains(at(port.at))).count() as u32;
        let hidden = layout.labels.iter().filter(|l| frame.intersects(rect(l.area)));
        let names: u32 = hidden.map(|label| if label.quiet { 3 } else { 8 }).sum();
        let on_top = taken.iter().filter(|taken| taken.intersects(*frame)).count() as u32;
        count + 4 * ports + names + 40 * on_top + 40 * u32::from(frame.contains(point))
    };
    let frames = [26.0, 60.0, 100.0].into_iter().flat_map(|gap| {
        [
            (0.0, 1.0),
            (0.0, -1.0),
            (1.0, 0.0),
            (-1.0, 0.0),
            (1.0, 1.0),
            (-1.0, 1.0),
            (1.0, -1.0),
            (-1.0, -1.0),
        ]
        .map(|(x, y)| {
            let middle = point + vec2(x, y) * (size / 2.0 + Vec2::splat(gap));
            let corner = middle - size / 2.0;
            let x = corner.x.min(view.max.x - size.x).max(view.min.x);
            let y = corner.y.min(view.max.y - size.y).max(view.min.y);
            Rect::from_min_size(pos2(x, y), size)
        })
    });
    frames.min_by_key(covered).unwrap_or(Rect::from_min_size(point, size))
}

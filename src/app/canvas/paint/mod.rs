//! How it looks. The only place of the canvas that knows colours and pixels.

mod background;
mod bands;
mod cache;
mod call_out;
mod dash;
mod fill;
mod guides;
mod heaps;
mod hoses;
mod installed;
mod marks;
mod obstacles;
mod ribbon;
mod selected;
mod tie;
mod turning;
mod under_way;

pub(super) use background::picked;
pub(super) use cache::PaintCache;
pub(super) use call_out::{BoxPlace, CallOut};
pub(super) use guides::guides;
pub(super) use selected::selected;
pub(super) use tie::{cross, tie};
pub(super) use turning::{Turned, cross as cross_in, turning};
pub(super) use under_way::under_way;

use eframe::egui::{
    Align2, Color32, FontId, Mesh, Painter, Pos2, Rect, Shape, Stroke, StrokeKind, Vec2, pos2, vec2,
};
use glam::DVec2;

use super::Looking;
use super::camera::{Area, View};
use super::layout::{self, Behind, Label, Named, ViewLayout};
use super::moving::Positioned;
use super::scene::Scene;
use super::thing::Thing;
use crate::app::theme::{self, Palette, size};

/// What stands out just now.
#[derive(Debug, Clone, Copy, Default)]
pub(super) struct Emphasis<'a> {
    /// The hose whose card is shown.
    pub(super) run: Option<&'a str>,
    /// What is selected.
    pub(super) selected: &'a [Thing],
    /// Whether what is in front of that is seen through.
    pub(super) sees_through: bool,
    /// What is under the pointer, or taken hold of.
    pub(super) thing: Option<&'a Thing>,
    /// The finding that is looked at.
    pub(super) finding: Option<usize>,
    /// Whether it is shown the installed shapes.
    pub(super) installed: bool,
    /// In which position.
    pub(super) positioned: Option<Positioned>,
}

/// To a place of the painter.
pub(super) fn at(p: DVec2) -> Pos2 {
    pos2(p.x as f32, p.y as f32)
}

/// To a rectangle of the painter.
pub(super) fn rect(area: Area) -> Rect {
    Rect::from_min_max(at(area.min), at(area.max))
}

/// From a rectangle of the painter.
pub(super) fn area(rect: Rect) -> Area {
    Area {
        min: DVec2::new(f64::from(rect.min.x), f64::from(rect.min.y)),
        max: DVec2::new(f64::from(rect.max.x), f64::from(rect.max.y)),
    }
}

/// What lies over a view for a moment.
#[derive(Default)]
pub(super) struct Over<'a> {
    /// What a finding says.
    pub(super) call_out: Option<&'a CallOut>,
    /// The name of what is under the pointer.
    pub(super) pointed: Option<&'a Label>,
}

/// Paints one view; `painter` is clipped to it. What is as it was comes from `kept`.
pub(super) fn view(
    painter: &Painter,
    looking: &Looking<'_>,
    layout: &ViewLayout,
    emphasis: Emphasis<'_>,
    over: &Over<'_>,
    kept: &mut PaintCache,
    colours: &Palette,
) {
    let (scene, frame) = (looking.scene, rect(layout.area));
    kept.look(colours, painter.pixels_per_point());
    painter.rect_filled(frame, 4.0, colours.sheet);
    kept.paper(painter, layout, colours);
    background::backgrounds(painter, layout, &scene.backgrounds, &looking.under, colours);
    let behind = Behind::of(scene, layout.view, emphasis.run, emphasis.selected);
    let behind = if emphasis.sees_through { behind.cut() } else { behind };
    kept.ground(painter, layout, behind, colours);
    glow(painter, scene, layout, emphasis, colours);
    let positioned = emphasis
        .positioned
        .and_then(|positioned| Some((positioned, looking.positions.get(positioned.position)?)));
    let hovered = match emphasis.thing {
        Some(Thing::Hose(run)) => place_of(scene, Some(run)),
        _ => None,
    };
    kept.installed.paint(painter, layout, place_of(scene, emphasis.run), emphasis, colours);
    if let Some((positioned, position)) = positioned {
        let moved = layout::moved_obstacles(scene, layout, &position.groups, positioned.share);
        installed::moved_obstacles(painter, &moved, colours);
    }
    let stands = [hovered, place_of(scene, emphasis.run)];
    kept.bands(painter, layout, stands, behind, colours);
    marks::clamps(painter, layout, emphasis, behind, colours);
    let lit_port = match emphasis.thing {
        Some(Thing::Port(id)) => scene.ports.iter().position(|port| port.id == *id),
        _ => None,
    };
    let own = place_of(scene, emphasis.run).and_then(|hose| {
        let [a, b] = &scene.hoses[hose].ports;
        let place = |id: &String| scene.ports.iter().position(|port| port.id == *id);
        Some([place(a)?, place(b)?])
    });
    kept.ports(painter, layout, (lit_port, own), behind, colours);
    marks::handles(painter, layout, emphasis, colours);
    labels(painter, layout, over, colours);
    marks::findings(painter, layout, emphasis, colours);
    title(painter, scene, layout, colours);
    if let Some((_, position)) = positioned.filter(|_| layout.view == View::Plan) {
        let place =
            at(layout.area.max) - vec2(14.0, if scene.ghost_of.is_some() { 30.0 } else { 10.0 });
        // A group a line: one line of all would be wider than the view.
        let name = position.name.replace("; ", "\n");
        on_paper(painter, place, Align2::RIGHT_BOTTOM, &name, colours.installed, colours);
    }
    scale_bar(painter, layout, colours);
    axes(painter, layout, colours);
    painter.rect_stroke(frame, 4.0, Stroke::new(1.0, colours.hairline), StrokeKind::Inside);
}

fn place_of(scene: &Scene, run: Option<&str>) -> Option<usize> {
    scene.hoses.iter().position(|hose| Some(hose.run.as_str()) == run)
}

/// The light under the selected hose.
fn glow(
    painter: &Painter,
    scene: &Scene,
    layout: &ViewLayout,
    emphasis: Emphasis<'_>,
    colours: &Palette,
) {
    let Some(hose) = place_of(scene, emphasis.run) else { return };
    let pixel = f64::from(painter.pixels_per_point()).recip();
    let mut mesh = Mesh::default();
    for band in layout.bands.iter().filter(|band| band.hose == hose) {
        hoses::glow(&mut mesh, band, colours, pixel);
    }
    painter.add(Shape::mesh(mesh));
}

fn grid(shapes: &mut Vec<Shape>, layout: &ViewLayout, colours: &Palette) {
    let frame = rect(layout.area);
    let stroke =
        |strong: bool| Stroke::new(1.0, if strong { colours.grid_major } else { colours.grid });
    for strong in [false, true] {
        for (x, _) in layout.grid.upright.iter().filter(|line| line.1 == strong) {
            shapes.push(Shape::vline(*x as f32, frame.y_range(), stroke(strong)));
        }
        for (y, _) in layout.grid.level.iter().filter(|line| line.1 == strong) {
            shapes.push(Shape::hline(frame.x_range(), *y as f32, stroke(strong)));
        }
    }
    // The origin: a ring and a cross.
    if layout.area.contains(layout.grid.origin) {
        let (origin, quiet) = (at(layout.grid.origin), Stroke::new(1.0, colours.soft));
        for half in [vec2(7.0, 0.0), vec2(0.0, 7.0)] {
            shapes.push(Shape::line_segment([origin - half, origin + half], quiet));
        }
        shapes.push(Shape::circle_stroke(origin, 3.0, quiet));
    }
}

/// The hoses of another routing: pale, dashed, behind.
fn ghosts(shapes: &mut Vec<Shape>, layout: &ViewLayout, colours: &Palette) {
    for line in &layout.ghosts {
        shapes.extend(ghost(line, colours));
    }
}

fn ghost(line: &[DVec2], colours: &Palette) -> Vec<Shape> {
    dash::shapes(line, Stroke::new(1.75, colours.ghost), 7.0, 5.0).collect()
}

fn labels(painter: &Painter, layout: &ViewLayout, over: &Over<'_>, colours: &Palette) {
    let pointed = over.pointed;
    let stays = |label: &&Label| pointed.is_none_or(|pointed| !pointed.area.meets(label.area));
    for label in layout.labels.iter().filter(stays).chain(pointed) {
        // Half a name is worse than none.
        if over.call_out.is_some_and(|call_out| call_out.frame.intersects(rect(label.area))) {
            continue;
        }
        if let Some(ends) = label.leader {
            painter.line_segment(ends.map(at), Stroke::new(3.5, colours.sheet));
            painter.line_segment(ends.map(at), Stroke::new(1.0, colours.ink));
            // A line that ends on a surface ends in a dot (ISO 128-2).
            if let Named::Obstacle(_) = label.of {
                painter.circle_filled(at(ends[0]), 2.0, colours.ink);
            }
        }
        let colour = if label.quiet { colours.soft } else { colours.ink };
        if label.on_paper {
            let behind = rect(label.area.grown(1.0));
            painter.rect_filled(behind, 0.0, colours.sheet.gamma_multiply(0.7));
        }
        painter.text(
            at(label.area.min),
            Align2::LEFT_TOP,
            &label.text,
            theme::font(size::SMALL),
            colour,
        );
    }
}

fn title(painter: &Painter, scene: &Scene, layout: &ViewLayout, colours: &Palette) {
    let place = title_place(layout.area);
    on_paper(painter, place, Align2::LEFT_TOP, layout.view.name(), colours.soft, colours);
    if let (View::Plan, Some(of)) = (layout.view, &scene.ghost_of) {
        let place = at(layout.area.max) - vec2(14.0, 10.0);
        let text = format!("ghost of {of}");
        let frame = on_paper(painter, place, Align2::RIGHT_BOTTOM, &text, colours.soft, colours);
        let dash = [DVec2::new(-34.0, 0.0), DVec2::new(-8.0, 0.0)].map(|off| {
            let from = frame.left_center();
            DVec2::new(f64::from(from.x), f64::from(from.y)) + off
        });
        painter.extend(ghost(&dash, colours));
    }
}

/// Where a view's name begins.
pub(super) fn title_place(area: Area) -> Pos2 {
    at(area.min) + vec2(12.0, 10.0)
}

fn scale_bar(painter: &Painter, layout: &ViewLayout, colours: &Palette) {
    let end = at(DVec2::new(layout.area.min.x + 14.0, layout.area.max.y - 12.0));
    let width = layout.scale_bar.points as f32;
    let stroke = Stroke::new(1.5, colours.ink);
    painter.line_segment([end, end + vec2(width, 0.0)], stroke);
    for x in [0.0, width] {
        painter.line_segment([end + vec2(x, -4.0), end + vec2(x, 0.75)], stroke);
    }
    let place = end + vec2(width / 2.0, -3.0);
    on_paper(painter, place, Align2::CENTER_BOTTOM, &layout.scale_bar.label, colours.ink, colours);
}

/// Which way the nose is, left and up.
fn axes(painter: &Painter, layout: &ViewLayout, colours: &Palette) {
    let Some(foot) = layout::axes::foot(layout.area) else { return };
    let [right, up] = layout::axes::words(layout.view);
    let reach = layout::axes::REACH as f32;
    let (foot, stroke) = (at(foot), Stroke::new(1.0, colours.soft));
    for way in [vec2(reach, 0.0), vec2(0.0, -reach)] {
        painter.line_segment([foot, foot + way], stroke);
        arrow_head(painter, foot + way, way / reach, colours.soft);
    }
    let place = foot + vec2(reach + 6.0, 0.0);
    on_paper(painter, place, Align2::LEFT_CENTER, right, colours.soft, colours);
    let place = foot + vec2(-4.0, -reach - 5.0);
    on_paper(painter, place, Align2::LEFT_BOTTOM, up, colours.soft, colours);
}

/// The head of an arrow that goes the way of a unit vector.
fn arrow_head(painter: &Painter, tip: Pos2, way: Vec2, colour: Color32) {
    let (back, aside) = (tip - 5.0 * way, 2.5 * way.rot90());
    let path = vec![tip + way, back + aside, back - aside];
    painter.add(Shape::convex_polygon(path, colour, Stroke::NONE));
}

/// Text with the sheet behind it, for where lines may run. Tells where it is.
fn on_paper(
    painter: &Painter,
    place: Pos2,
    align: Align2,
    text: &str,
    colour: Color32,
    colours: &Palette,
) -> Rect {
    let font: FontId = theme::font(size::SMALL);
    let galley = painter.layout_no_wrap(text.to_owned(), font, colour);
    let frame = align.anchor_size(place, galley.size());
    painter.rect_filled(frame.expand2(vec2(4.0, 1.0)), 3.0, colours.sheet.gamma_multiply(0.85));
    painter.galley(frame.min, galley, colour);
    frame
}

/// A dashed closed border.
fn dashed(points: &[DVec2], stroke: Stroke, on: f64, off: f64) -> Vec<Shape> {
    let mut path = points.to_vec();
    path.extend(path.first().copied());
    dash::shapes(&path, stroke, on, off).collect()
}

//! The turning view: shaded things from the picture, their lines over it, names and marks on top.

use std::sync::Arc;

use eframe::egui::epaint::{TessellationOptions, Tessellator};
use eframe::egui::{
    self, Align2, Color32, ColorImage, Mesh, Painter, Pos2, Rect, Shape, Stroke, StrokeKind,
    TextureHandle, TextureOptions, pos2, vec2,
};
use glam::{DVec2, DVec3};

use super::super::scene::{FindingMark, Scene};
use super::super::thing::Thing;
use super::super::turn::picture::{Item, Of, Picture, PortSpot};
use super::super::turn::raster::Seen;
use super::super::turn::tube::Stretch;
use super::hoses::FAINT;
use super::obstacles::inks;
use super::{Emphasis, at, on_paper, rect};
use crate::app::theme::icons::{self, State};
use crate::app::theme::{Palette, in_light};
use crate::model::{AXES, Nature};

/// What is kept of it while it stays as it is.
#[derive(Clone, Default)]
pub(in super::super) struct Turned {
    key: Option<Key>,
    texture: Option<TextureHandle>,
    behind: Arc<Mesh>,
    lines: Arc<Mesh>,
}

impl std::fmt::Debug for Turned {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Turned").field("key", &self.key).finish_non_exhaustive()
    }
}

#[derive(Debug, Clone, PartialEq)]
struct Key {
    picture: u64,
    selected: Option<usize>,
    lit: Option<usize>,
    installed: bool,
    colours: Palette,
    pixels_per_point: f32,
}

/// Paints it; `painter` is clipped to it. `pointed` is the obstacle under the pointer and where that is.
pub(in super::super) fn turning(
    painter: &Painter,
    scene: &Scene,
    picture: &Picture,
    emphasis: Emphasis<'_>,
    pointed: Option<(usize, DVec2)>,
    turned: &mut Turned,
    colours: &Palette,
) {
    let frame = rect(picture.area());
    painter.rect_filled(frame, 4.0, colours.sheet);
    turned.renew(painter, scene, picture, emphasis, colours);
    painter.add(Shape::mesh(Arc::clone(&turned.behind)));
    if let Some(texture) = &turned.texture {
        let whole = Rect::from_min_max(Pos2::ZERO, pos2(1.0, 1.0));
        painter.image(texture.id(), frame, whole, Color32::WHITE);
    }
    painter.add(Shape::mesh(Arc::clone(&turned.lines)));
    ports(painter, scene, picture, emphasis, colours);
    findings(painter, scene, picture, emphasis, colours);
    if let Some((obstacle, pointer)) = pointed {
        let place = at(pointer) - vec2(0.0, 14.0);
        let text = &scene.obstacles[obstacle].label;
        on_paper(painter, place, Align2::CENTER_BOTTOM, text, colours.ink, colours);
    }
    let title = super::title_place(picture.area());
    on_paper(painter, title, Align2::LEFT_TOP, "3-D", colours.soft, colours);
    axes(painter, picture, colours);
    painter.rect_stroke(frame, 4.0, Stroke::new(1.0, colours.hairline), StrokeKind::Inside);
}

impl Turned {
    fn renew(
        &mut self,
        painter: &Painter,
        scene: &Scene,
        picture: &Picture,
        emphasis: Emphasis<'_>,
        colours: &Palette,
    ) {
        let hovered = match emphasis.thing {
            Some(Thing::Hose(run)) => super::place_of(scene, Some(run)),
            _ => None,
        };
        let key = Key {
            picture: picture.count,
            selected: super::place_of(scene, emphasis.run),
            lit: hovered,
            installed: emphasis.installed,
            colours: *colours,
            pixels_per_point: painter.pixels_per_point(),
        };
        if self.key.as_ref() == Some(&key) {
            return;
        }
        let inks: Vec<Ink> =
            picture.items.iter().map(|item| Ink::of(item, scene, &key, colours)).collect();
        let image = image(picture, &inks);
        if let Some(texture) = &mut self.texture {
            texture.set(image, TextureOptions::LINEAR);
        } else {
            let ctx = painter.ctx();
            self.texture = Some(ctx.load_texture("3-D", image, TextureOptions::LINEAR));
        }
        self.lines = Arc::new(lines(picture, scene, &key, colours));
        let drawn = |key: &Key| (key.picture, key.colours, key.pixels_per_point);
        if self.key.as_ref().map(drawn) != Some(drawn(&key)) {
            self.behind = Arc::new(behind(picture, scene, &key, colours));
        }
        self.key = Some(key);
    }
}

/// How an item is filled.
struct Ink {
    fill: Color32,
    hatch: Option<(Nature, Color32)>,
}

impl Ink {
    fn of(item: &Item, scene: &Scene, key: &Key, colours: &Palette) -> Self {
        match item.of {
            Of::Obstacle(index) => {
                let nature = scene.obstacles[index].nature;
                let inks = inks(nature, colours);
                let is_hatched = matches!(nature, Nature::Hot | Nature::Moving);
                let line = inks.fill.lerp_to_gamma(inks.edge, 0.4);
                Self { fill: inks.fill, hatch: is_hatched.then_some((nature, line)) }
            }
            Of::Hose(index) => {
                let fill = match item.stretch {
                    Some(Stretch::Tight) => colours.fail.lerp_to_gamma(colours.fail_faint, 0.45),
                    Some(Stretch::Socket) => colours.socket,
                    Some(Stretch::Fitting) => colours.fitting,
                    Some(Stretch::Clamp) => colours.plain,
                    Some(Stretch::Hose | Stretch::Installed) | None => colours.hose,
                };
                let is_faint = key.selected.is_some_and(|chosen| chosen != index);
                let fill = if is_faint && key.lit != Some(index) {
                    fill.lerp_to_gamma(colours.sheet, FAINT)
                } else {
                    fill
                };
                let share = match (key.lit == Some(index), key.selected == Some(index)) {
                    (true, _) => 0.45,
                    (false, true) => 0.25,
                    (false, false) => 0.0,
                };
                Self { fill: fill.lerp_to_gamma(colours.accent, share), hatch: None }
            }
        }
    }

    fn at(&self, seen: Seen, x: usize, y: usize, step: usize) -> Color32 {
        let light = f32::from(seen.light) / 255.0;
        let is_line = match self.hatch {
            None => false,
            Some((Nature::Moving, _)) => {
                let across = x.wrapping_add(usize::MAX / 2 / step * step).wrapping_sub(y) % step;
                across < step / 9 && (x + y) / (step / 9) % 20 < 12
            }
            Some(_) => (x + y) % step < step / 9,
        };
        let fill = match self.hatch {
            Some((_, line)) if is_line => line,
            _ => self.fill,
        };
        in_light(fill, light)
    }
}

fn image(picture: &Picture, inks: &[Ink]) -> ColorImage {
    let [width, height] = picture.raster.size();
    // Hatching as wide apart as in the other views, however fine the picture.
    let per_point = width as f64 / picture.area().size().x.max(1.0);
    let step = 13 * (per_point.round().max(1.0) as usize);
    let step = step / 9 * 9;
    let pixels = picture.raster.rows().enumerate().map(|(place, seen)| {
        seen.map_or(Color32::TRANSPARENT, |seen| {
            inks[seen.item as usize].at(seen, place % width, place / width, step)
        })
    });
    ColorImage::new([width, height], pixels.collect())
}

/// What lies behind all: the hoses of another routing, and the keep-out zones.
fn behind(picture: &Picture, scene: &Scene, key: &Key, colours: &Palette) -> Mesh {
    let mut mesh = Mesh::default();
    let mut tessellator = tessellator(picture, key);
    let ghosts = picture.ghosts.iter().flat_map(|line| super::ghost(line, colours));
    let min_clearance = picture.min_clearance.iter().flat_map(|(obstacle, line)| {
        let edge = inks(scene.obstacles[*obstacle].nature, colours).edge.gamma_multiply(0.7);
        super::obstacles::min_clearance_line(line, Stroke::new(1.0, edge))
    });
    for shape in ghosts.chain(min_clearance) {
        tessellator.tessellate_shape(shape, &mut mesh);
    }
    mesh
}

fn tessellator(picture: &Picture, key: &Key) -> Tessellator {
    let options = TessellationOptions::default();
    let mut tessellator = Tessellator::new(key.pixels_per_point, options, [1, 1], Vec::new());
    tessellator.set_clip_rect(rect(picture.area()));
    tessellator
}

/// All lines as one mesh.
fn lines(picture: &Picture, scene: &Scene, key: &Key, colours: &Palette) -> Mesh {
    let mut tessellator = tessellator(picture, key);
    let mut mesh = Mesh::default();
    let shown = |line: &&super::super::turn::picture::Line| {
        key.installed || line.stretch != Some(Stretch::Installed)
    };
    for line in picture.lines.iter().filter(shown) {
        let stroke = match line.of {
            Of::Hose(_) if line.stretch == Some(Stretch::Installed) => {
                Stroke::new(1.25, colours.installed)
            }
            Of::Obstacle(index) => {
                let edge = inks(scene.obstacles[index].nature, colours).edge;
                Stroke::new(1.0, edge)
            }
            Of::Hose(index) if key.lit == Some(index) => Stroke::new(1.75, colours.accent),
            Of::Hose(index) if key.selected == Some(index) => Stroke::new(1.5, colours.accent),
            Of::Hose(_) => match line.stretch {
                Some(Stretch::Tight) => Stroke::new(1.5, colours.fail),
                Some(Stretch::Clamp) => Stroke::new(1.25, colours.ink),
                _ => Stroke::new(1.25, colours.hose_edge),
            },
        };
        let path: Vec<Pos2> = line.points.iter().map(|p| at(*p)).collect();
        tessellator.tessellate_shape(Shape::line(path, stroke), &mut mesh);
    }
    // The selected hose is seen through what stands before it.
    let through = Stroke::new(3.0, colours.accent.gamma_multiply(0.4));
    for path in key.selected.iter().flat_map(|hose| picture.middle_lines(*hose)) {
        let path = path.into_iter().map(at).collect();
        tessellator.tessellate_shape(Shape::line(path, through), &mut mesh);
    }
    mesh
}

fn ports(
    painter: &Painter,
    scene: &Scene,
    picture: &Picture,
    emphasis: Emphasis<'_>,
    colours: &Palette,
) {
    let mut order: Vec<&PortSpot> = picture.ports.iter().collect();
    order.sort_by(|a, b| a.depth.total_cmp(&b.depth));
    let named = named(scene, emphasis);
    for spot in order {
        let mark = &scene.ports[spot.index];
        let lit = matches!(emphasis.thing, Some(Thing::Port(id)) if *id == mark.id);
        let ink = if lit { colours.accent } else { colours.ink };
        let share = if spot.is_in_sight || lit { 1.0 } else { 0.3 };
        let stroke = Stroke::new(if lit { 2.25 } else { 1.5 }, ink.gamma_multiply(share));
        let middle = at(spot.at);
        if spot.toward.length() > 0.3 {
            painter.line_segment([middle, at(spot.at + spot.toward * 13.0)], stroke);
        }
        painter.circle(middle, 3.5, colours.sheet.gamma_multiply(share), stroke);
        if lit || (named.contains(&mark.id.as_str()) && spot.is_in_sight) {
            let side = if spot.toward.x > 0.0 { -1.0 } else { 1.0 };
            let align = if side > 0.0 { Align2::LEFT_CENTER } else { Align2::RIGHT_CENTER };
            let place = middle + vec2(side * 11.0, 0.0);
            on_paper(painter, place, align, &mark.label, colours.ink, colours);
        }
    }
}

/// The ports of the selected hose.
fn named<'a>(scene: &'a Scene, emphasis: Emphasis<'_>) -> Vec<&'a str> {
    let Some(hose) = super::place_of(scene, emphasis.run) else { return Vec::new() };
    scene.hoses[hose].ports.iter().map(String::as_str).collect()
}

fn findings(
    painter: &Painter,
    scene: &Scene,
    picture: &Picture,
    emphasis: Emphasis<'_>,
    colours: &Palette,
) {
    let lit = |mark: &FindingMark| emphasis.finding == Some(mark.index);
    let shown = scene.findings.iter().filter(|mark| !mark.is_quiet || lit(mark));
    let mut order: Vec<_> = shown.collect();
    order.sort_by_key(|mark| (!lit(mark), mark.severity, mark.index));
    let mut standing: Vec<Pos2> = Vec::new();
    for mark in order {
        let place = at(picture.to_screen(mark.point));
        // One mark for one place: that of the worst.
        if standing.iter().any(|other| other.distance(place) < ONE_PLACE) {
            continue;
        }
        let radius = if lit(mark) { 5.0 } else { 3.5 };
        painter.circle_filled(place, radius + 2.0, colours.sheet);
        icons::paint(painter, place, radius, State::from(mark.severity), colours);
        standing.push(place);
    }
}

/// Findings nearer to each other than this have one mark, points.
const ONE_PLACE: f32 = 14.0;

/// Small arrows along the bay's axes with their words, the nearest on top.
fn axes(painter: &Painter, picture: &Picture, colours: &Palette) {
    const REACH: f64 = 24.0;
    let basis = picture.camera().basis();
    let area = picture.area();
    // A smaller view has its buttons there.
    if area.size().cmplt(DVec2::splat(220.0)).any() {
        return;
    }
    let middle = DVec2::new(area.min.x + 54.0, area.max.y - 50.0);
    let [x, y, z] = AXES;
    let mut order = [(DVec3::X, x), (DVec3::Y, y), (DVec3::Z, z)];
    order.sort_by(|a, b| a.0.dot(basis.to_viewer).total_cmp(&b.0.dot(basis.to_viewer)));
    painter.circle_filled(at(middle), 38.0, colours.sheet.gamma_multiply(0.75));
    for (axis, word) in order {
        let flat = DVec2::new(axis.dot(basis.right), -axis.dot(basis.up));
        let (tip, colour) = (at(middle + flat * REACH), colours.soft);
        painter.line_segment([at(middle), tip], Stroke::new(1.0, colour));
        if flat.length() > 0.3 {
            let way = vec2(flat.x as f32, flat.y as f32).normalized();
            super::arrow_head(painter, tip, way, colour);
            // Beside the tip, on the side that it points to.
            let side = if flat.x > 0.3 {
                Align2::LEFT_CENTER
            } else if flat.x < -0.3 {
                Align2::RIGHT_CENTER
            } else {
                Align2::CENTER_CENTER
            };
            let font = crate::app::theme::font(crate::app::theme::size::SMALL);
            painter.text(tip + way * 8.0, side, word, font, colour);
        }
    }
}

/// A cross at a place of the bay.
pub(in super::super) fn cross(
    painter: &Painter,
    picture: &Picture,
    point: DVec3,
    colours: &Palette,
) {
    let middle: egui::Pos2 = at(picture.to_screen(point));
    let stroke = Stroke::new(1.5, colours.accent);
    painter.line_segment([middle - vec2(7.0, 0.0), middle + vec2(7.0, 0.0)], stroke);
    painter.line_segment([middle - vec2(0.0, 7.0), middle + vec2(0.0, 7.0)], stroke);
}

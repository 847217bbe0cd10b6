//! Names on the drawing: of what is pointed at or selected, wherever there is a place for them; of the rest
//! only where it is alone in its place. A name stands nearer to its own mark than to any other, or a line
//! leads to it.

use glam::{DVec2, dvec2};

use super::super::camera::Area;
use super::super::scene::Scene;
use super::names::{Label, Named};
use super::room::{Room, RoundMark, within};
use super::{Marker, PortShape, ViaShape, ViewLayout, whole};
use crate::model::Nature;

/// How names are set.
pub struct Naming<'a> {
    /// Tells the size of a text.
    pub measure: &'a dyn Fn(&str) -> DVec2,
    /// What is pointed at or selected: it is named wherever there is a place in the view at all.
    pub asked: &'a [Named],
    /// The hose whose corners are shown.
    pub run: Option<&'a str>,
    /// The finding that is looked at: its mark is shown even where it is but a note.
    pub finding: Option<usize>,
    /// How far the buttons in the right upper corner reach, points.
    pub buttons: f64,
}

/// Names that nobody asked for, at most.
const HANDFUL: usize = 5;

/// A name covers hoses by no more than this share of its area: past it, it is left out.
pub(super) const OVER_HOSES: f64 = 0.2;

/// By how much a name is nearer to its own mark than to any other, points.
pub(super) const MARGIN: f64 = 4.0;
/// A mark is alone where no other is so near, points.
const ALONE: f64 = 30.0;
/// A name at the end of a line keeps so far off other marks, points.
const ASIDE: f64 = 8.0;

pub(super) fn lay_out(scene: &Scene, layout: &ViewLayout, naming: &Naming<'_>) -> Vec<Label> {
    let mut setting = Setting::new(layout, naming);
    for of in naming.asked {
        setting.name(scene, *of, true);
    }
    let asked = setting.labels.len();
    // What can hurt a hose says so; plain obstacles wait to be pointed at. Ports speak where no hose is selected.
    let harmful = layout.obstacles.iter().filter(|obstacle| obstacle.nature != Nature::Plain);
    let harmful = harmful.map(|obstacle| Named::Obstacle(obstacle.index));
    let ports = layout.ports.iter().map(|port| Named::Port(port.index));
    let ports = ports.filter(|_| naming.run.is_none());
    for of in harmful.chain(ports) {
        if setting.labels.len() < asked + HANDFUL && !naming.asked.contains(&of) {
            setting.name(scene, of, false);
        }
    }
    whole::write_out(&mut setting.labels, &mut setting.room, scene, naming.measure);
    setting.labels
}

/// The marks of findings that the view shows.
fn shown(markers: &[Marker], looked_at: Option<usize>) -> impl Iterator<Item = &Marker> {
    markers.iter().filter(move |marker| marker.is_shown(looked_at))
}

pub(super) fn about(at: DVec2, reach: f64) -> Area {
    Area { min: at, max: at }.grown(reach)
}

/// The corners of the view that its title, its scale bar and arrows, and its buttons take.
fn corners(layout: &ViewLayout, buttons: f64) -> [Area; 4] {
    let Area { min, max } = layout.area;
    let foot = dvec2(min.x, max.y);
    let title = Area { min, max: min + dvec2(70.0, 30.0) };
    let scale = Area {
        min: foot - dvec2(0.0, 34.0),
        max: foot + dvec2(layout.scale_bar.points + 26.0, 0.0),
    };
    let head = dvec2(max.x, min.y);
    let buttons = Area { min: head - dvec2(buttons, 0.0), max: head + dvec2(0.0, 34.0) };
    [title, scale, buttons, super::axes::room(layout.area).unwrap_or(title)]
}

pub(super) struct Setting<'a> {
    pub(super) layout: &'a ViewLayout,
    pub(super) naming: &'a Naming<'a>,
    pub(super) room: Room,
    pub(super) labels: Vec<Label>,
}

/// How far off a name may stand, points: beside its mark, and at the end of a line.
const BESIDE: f64 = 4.0;
const REACHES: [f64; 4] = [BESIDE, 22.0, 44.0, 70.0];

/// Where a name may stand about a round mark: across and up, in halves of mark and name together.
const PLACES: [DVec2; 20] = [
    dvec2(0.0, 1.0),
    dvec2(1.0, 0.0),
    dvec2(-1.0, 0.0),
    dvec2(0.0, -1.0),
    dvec2(1.0, 0.5),
    dvec2(-1.0, 0.5),
    dvec2(1.0, -0.5),
    dvec2(-1.0, -0.5),
    dvec2(1.0, 1.0),
    dvec2(-1.0, 1.0),
    dvec2(1.0, -1.0),
    dvec2(-1.0, -1.0),
    dvec2(0.3, 1.0),
    dvec2(-0.3, 1.0),
    dvec2(0.3, -1.0),
    dvec2(-0.3, -1.0),
    dvec2(0.6, 1.0),
    dvec2(-0.6, 1.0),
    dvec2(0.6, -1.0),
    dvec2(-0.6, -1.0),
];

impl<'a> Setting<'a> {
    fn new(layout: &'a ViewLayout, naming: &'a Naming<'a>) -> Self {
        let mut setting = Self::without_hoses(layout, naming);
        setting.room.mark_hoses(&layout.bands, layout.area);
        setting
    }

    /// Where no hose is in the way as yet.
    pub(super) fn without_hoses(layout: &'a ViewLayout, naming: &'a Naming<'a>) -> Self {
        let marks = round_marks(layout, naming.run, naming.finding);
        let room = Room::new(layout.area, corners(layout, naming.buttons).to_vec(), marks);
        Self { layout, naming, room, labels: Vec::new() }
    }

    /// Names a thing; one that is `asked` for also at the end of a line.
    pub(super) fn name(&mut self, scene: &Scene, of: Named, asked: bool) {
        match of {
            Named::Port(index) => {
                if let Some(port) = self.layout.ports.get(index) {
                    self.port(scene, port, asked);
                }
            }
            Named::Via(_) => {
                if let Some(via) = self.via(of) {
                    let mark = RoundMark { at: via.at, radius: via.radius(), of: Some(of) };
                    self.mark(of, &via.name, mark, DVec2::ZERO, asked);
                }
            }
            Named::Obstacle(index) => self.obstacle(scene, index, asked),
            Named::Pointed => {}
        }
    }

    pub(super) fn put(&mut self, of: Named, text: &str, area: Area, is_on_plain: bool) {
        self.room.take(area);
        let quiet = matches!(of, Named::Obstacle(_));
        let (text, on_paper) = (text.to_owned(), !is_on_plain);
        self.labels.push(Label { text, area, quiet, on_paper, leader: None, of });
    }

    fn port(&mut self, scene: &Scene, port: &PortShape, asked: bool) {
        let text = &scene.ports[port.index].label;
        let of = Named::Port(port.index);
        let mark = RoundMark { at: port.at, radius: port.radius, of: Some(of) };
        let is_alone = !self.room.has_other_within(about(port.at, port.radius), of, ALONE);
        if asked || is_alone {
            self.mark(of, text, mark, port.toward, asked);
        }
    }

    pub(super) fn via(&self, of: Named) -> Option<&'a ViaShape> {
        let Named::Via(index) = of else { return None };
        self.layout.vias.get(index)
    }

    /// How far from a mark its name may reach, points; but for a name that finds no place about it.
    pub(super) fn reach(&self, text: &str) -> f64 {
        let size = (self.naming.measure)(text);
        size.max_element() + REACHES[REACHES.len() - 1] + 20.0
    }

    /// The region in which a thing's name may come to stand; none where the thing is not there.
    pub(super) fn around(&self, scene: &Scene, of: Named) -> Option<Area> {
        match of {
            Named::Port(index) => {
                let port = self.layout.ports.get(index)?;
                Some(about(port.at, self.reach(&scene.ports[port.index].label)))
            }
            Named::Via(_) => {
                let via = self.via(of)?;
                Some(about(via.at, self.reach(&via.name)))
            }
            Named::Obstacle(index) => {
                let shape = self.layout.obstacles.iter().find(|shape| shape.index == index)?;
                Some(shape.about.grown(self.reach(&scene.obstacles[index].label)))
            }
            Named::Pointed => None,
        }
    }

    /// Names a round mark; what is `asked` for also farther off, at the end of a line.
    pub(super) fn mark(
        &mut self,
        of: Named,
        text: &str,
        mark: RoundMark,
        toward: DVec2,
        asked: bool,
    ) {
        let RoundMark { at, radius, .. } = mark;
        if !self.layout.area.contains(at) {
            return;
        }
        let size = (self.naming.measure)(text);
        let away = -toward.normalize_or_zero();
        let reaches = if asked { &REACHES[..] } else { &[BESIDE] };
        let places = reaches.iter().flat_map(|reach| {
            PLACES.iter().map(move |place| {
                let middle = at + *place * (DVec2::splat(radius + reach) + size / 2.0);
                // The side that the hose does not leave by rather than another.
                let side = 0.1 * (1.0 - place.normalize().dot(away));
                (centred(middle, size), *reach, side)
            })
        });
        let ranked = places.filter_map(|(area, reach, side)| {
            let is_beside = reach == BESIDE && matches!(of, Named::Port(_) | Named::Via(_));
            let off = if is_beside { mark.gap(area) + MARGIN } else { ASIDE };
            let is_bad = (reach == BESIDE && !is_beside)
                || !self.is_free(area)
                || self.room.has_other_within(area, of, off);
            if is_bad {
                return None;
            }
            let share = self.room.hose_share(area);
            if !asked && share > OVER_HOSES {
                return None;
            }
            // A place just beside before any far one, then what covers least.
            let crossing = 2.0 * f64::from(!is_beside && self.crosses(leader(mark, area), of));
            Some((area, is_beside, reach / 20.0 + side + 4.0 * share + crossing))
        });
        let best = ranked.min_by(|a, b| a.2.total_cmp(&b.2));
        let best = best.map(|(area, is_beside, _)| (area, is_beside));
        let anywhere = || Some((self.anywhere(of, at, size)?, false));
        let Some((area, is_beside)) = best.or_else(|| anywhere().filter(|_| asked)) else { return };
        self.put(of, text, area, false);
        if let (false, Some(label)) = (is_beside, self.labels.last_mut()) {
            label.leader = Some(leader(mark, area));
        }
    }

    /// Whether a name may stand there: over no mark, no other name and no line to one.
    pub(super) fn is_free(&self, area: Area) -> bool {
        let mut leaders = self.labels.iter().filter_map(|label| label.leader);
        self.room.is_free(area) && !leaders.any(|ends| within(area.grown(1.0), ends).is_some())
    }

    /// Whether a line runs over another mark or a name.
    fn crosses(&self, ends: [DVec2; 2], of: Named) -> bool {
        self.room.is_crossed(ends, of)
            || self.labels.iter().any(|label| within(label.area, ends).is_some())
    }

    /// The free place of the view nearest to a point; one beside another mark only where there is no other.
    fn anywhere(&self, of: Named, at: DVec2, size: DVec2) -> Option<Area> {
        let Area { min, max } = self.layout.area;
        let step = dvec2(24.0, 8.0);
        let counts = ((max - min - size) / step).floor().max(DVec2::ZERO);
        let places = (0..=counts.y as u32).flat_map(|y| {
            (0..=counts.x as u32).map(move |x| min + step * dvec2(f64::from(x), f64::from(y)))
        });
        let areas = places.map(|min| Area { min, max: min + size });
        let free = areas.filter(|area| self.is_free(*area));
        let far = |area: Area| {
            let is_beside_another = self.room.has_other_within(area, of, ASIDE);
            (is_beside_another, at.clamp(area.min, area.max).distance_squared(at))
        };
        free.map(|area| (far(area), area))
            .min_by(|(a, _), (b, _)| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)))
            .map(|(_, area)| area)
    }
}

/// From the edge of a mark to the nearest place of its name.
fn leader(mark: RoundMark, area: Area) -> [DVec2; 2] {
    let near = mark.at.clamp(area.min, area.max);
    [mark.at + (near - mark.at).normalize_or_zero() * mark.radius, near]
}

/// All round marks that the view shows.
pub(super) fn round_marks(
    layout: &ViewLayout,
    run: Option<&str>,
    finding: Option<usize>,
) -> Vec<RoundMark> {
    let ports = layout.ports.iter().map(|port| RoundMark {
        at: port.at,
        radius: port.radius,
        of: Some(Named::Port(port.index)),
    });
    let vias = layout.vias.iter().enumerate().filter(|(_, via)| via.is_shown(run));
    let vias = vias.map(|(index, via)| RoundMark {
        at: via.at,
        radius: via.radius(),
        of: Some(Named::Via(index)),
    });
    let markers = shown(&layout.markers, finding);
    let markers =
        markers.map(|marker| RoundMark { at: marker.at, radius: super::MARKER_RADIUS, of: None });
    ports.chain(vias).chain(markers).collect()
}

pub(super) fn centred(middle: DVec2, size: DVec2) -> Area {
    Area { min: middle - size / 2.0, max: middle + size / 2.0 }
}

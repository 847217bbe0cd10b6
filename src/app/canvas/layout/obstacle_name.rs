//! The name of an obstacle: inside its outline, beside it, or at the end of a line.

use glam::{DVec2, dvec2};

use super::super::camera::Area;
use super::super::outline::Outline;
use super::super::scene::Scene;
use super::ObstacleShape;
use super::label::{MARGIN, OVER_HOSES, Setting, centred};
use super::names::Named;
use super::room::{RoundMark, within};
use crate::model::Nature;

/// A name on a plain obstacle covers hoses by no more than this share of its area.
const PLAIN_OVER_HOSES: f64 = 0.08;
/// A name on an obstacle keeps so far off round marks, points: it would be read as theirs.
const OFF_MARKS: f64 = 8.0;
/// How far beside its obstacle a name stands at most, points.
const BESIDE: f64 = 5.0;

impl Setting<'_> {
    /// Names an obstacle, by its place in the scene, by the first of its texts that finds room.
    pub(super) fn obstacle(&mut self, scene: &Scene, index: usize, asked: bool) {
        let shapes = &self.layout.obstacles;
        let Some(k) = shapes.iter().position(|shape| shape.index == index) else { return };
        let of = Named::Obstacle(index);
        let mark = &scene.obstacles[index];
        let texts = [mark.label.as_str(), mark.name.as_str()];
        let inside = texts.into_iter().find_map(|text| Some((text, self.inside(k, text)?)));
        if let Some((text, area)) = inside {
            return self.put(of, text, area, mark.nature == Nature::Plain);
        }
        let beside = texts.into_iter().find_map(|text| Some((text, self.beside(k, text)?)));
        if let Some((text, area)) = beside {
            return self.put(of, text, area, false);
        }
        if let (true, Some(at)) = (asked, self.foot(k)) {
            let foot = RoundMark { at, radius: 0.0, of: Some(of) };
            self.mark(of, &mark.label, foot, DVec2::ZERO, true);
        }
    }

    fn inside(&self, k: usize, text: &str) -> Option<Area> {
        let obstacle = &self.layout.obstacles[k];
        let of = Named::Obstacle(obstacle.index);
        let size = (self.naming.measure)(text);
        let (lo, hi) = self.extent(obstacle)?;
        let pad = dvec2(6.0, 4.0);
        let (lo, hi) = (lo + pad, hi - pad - size);
        if !hi.cmpge(lo).all() {
            return None;
        }
        let plain = obstacle.nature == Nature::Plain;
        let most = if plain { PLAIN_OVER_HOSES } else { OVER_HOSES };
        // From the lower left, as a drawing is lettered.
        let shares = [0.0, 0.25, 0.5, 0.75, 1.0];
        let places = shares.iter().flat_map(|up| {
            shares
                .iter()
                .map(move |right| dvec2(lo.x + right * (hi.x - lo.x), hi.y - up * (hi.y - lo.y)))
        });
        let areas = places.map(|min| Area { min, max: min + size });
        let free = areas.filter(|area| {
            self.is_free(*area)
                && !self.room.has_other_within(*area, of, OFF_MARKS)
                && self.is_in_sight_on(k, *area)
        });
        let ranked = free.map(|area| (area, self.room.hose_share(area)));
        let best = ranked.min_by(|a, b| a.1.total_cmp(&b.1));
        best.filter(|(_, share)| *share <= most).map(|(area, _)| area)
    }

    /// Whether an area is on one obstacle and on none that hides it.
    fn is_in_sight_on(&self, k: usize, area: Area) -> bool {
        let Area { min, max } = area;
        let corners = [min, dvec2(max.x, min.y), max, dvec2(min.x, max.y)];
        let mut nearer = self.layout.obstacles.iter().skip(k + 1);
        corners.iter().all(|corner| self.layout.obstacles[k].contains(*corner))
            && !nearer.any(|other| other.meets(area))
    }

    fn beside(&self, k: usize, text: &str) -> Option<Area> {
        let size = (self.naming.measure)(text);
        let shape = &self.layout.obstacles[k];
        let of = Named::Obstacle(shape.index);
        let (lo, hi) = self.extent(shape)?;
        let (middle, gap) = ((lo + hi) / 2.0, size / 2.0 + 3.0);
        let places = [
            dvec2(middle.x, hi.y + gap.y),
            dvec2(middle.x, lo.y - gap.y),
            dvec2(hi.x + gap.x, middle.y),
            dvec2(lo.x - gap.x, middle.y),
        ];
        let mut areas = places.into_iter().map(|middle| centred(middle, size));
        let others = || {
            let all = self.layout.obstacles.iter().enumerate();
            all.filter(|(j, _)| *j != k).map(|(_, other)| other)
        };
        areas.find(|area| {
            let reach = BESIDE + MARGIN;
            shape.meets(area.grown(BESIDE))
                && self.is_free(*area)
                && self.room.hose_share(*area) <= OVER_HOSES
                && !self.room.has_other_within(*area, of, reach)
                && !others().any(|other| other.meets(area.grown(reach)))
        })
    }

    /// Where a line to an obstacle ends: on it, where it is in sight.
    fn foot(&self, k: usize) -> Option<DVec2> {
        let shape = &self.layout.obstacles[k];
        let (lo, hi) = self.extent(shape)?;
        let shares = [0.5, 0.35, 0.65, 0.15, 0.85, 0.05, 0.95];
        let places =
            shares.iter().flat_map(|y| shares.iter().map(move |x| lo + dvec2(*x, *y) * (hi - lo)));
        let mut on_it = places.filter(|at| shape.contains(*at));
        let is_hidden = |at: DVec2| self.layout.obstacles[k + 1..].iter().any(|o| o.contains(at));
        let in_sight = on_it.clone().find(|at| !is_hidden(*at));
        in_sight.or_else(|| on_it.next())
    }

    /// The part of an obstacle that the view shows, left and top, right and bottom.
    fn extent(&self, obstacle: &ObstacleShape) -> Option<(DVec2, DVec2)> {
        let Area { min, max } = obstacle.about;
        let view = self.layout.area;
        let (min, max) = (min.max(view.min), max.min(view.max));
        min.cmple(max).all().then_some((min, max))
    }
}

impl ObstacleShape {
    /// Whether it and an area have a point in common.
    pub(super) fn meets(&self, area: Area) -> bool {
        let side = |ends: [DVec2; 2]| within(area, ends).is_some();
        self.about.meets(area)
            && (self.outline.contains(area.centre())
                || match &self.outline {
                    Outline::Convex(points) => {
                        let next = points.iter().cycle().skip(1);
                        points.iter().zip(next).any(|(a, b)| side([*a, *b]))
                    }
                    Outline::Shadow(shadow) => shadow.border.iter().any(|ends| side(*ends)),
                })
    }
}

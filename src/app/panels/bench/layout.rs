//! Where everything on the bench strip is. Pure and in f64: x is along the hose from cut end A, screen
//! points; `bench` in names means laid straight with its slack.

use std::sync::Arc;

use super::label::{self, LabelKind, LabelRequest, StripLabel};
use super::words;
use crate::app::canvas::camera::Area;
use crate::app::canvas::thing::{Thing, via_name};
use crate::checks::{Finding, Severity};
use crate::engine::installed::InstalledRun;
use crate::engine::{Bend, BendPlace, RunSolution};
use crate::model::Run;
use crate::report::findings::Findings;
use crate::units::{Length, LengthUnit};

/// Height of a row of text, points.
pub(super) const ROW: f64 = 15.0;

/// What is laid out.
#[derive(Clone, Copy)]
pub(super) struct Shown<'a> {
    pub(super) run: &'a Run,
    pub(super) solved: &'a RunSolution,
    /// All of the routing, in their order.
    pub(super) findings: &'a [Arc<Finding>],
    /// The same, grouped as they are told.
    pub(super) told: &'a Findings,
    /// The one looked at.
    pub(super) looked_at: Option<usize>,
    pub(super) unit: LengthUnit,
    /// The installed shape, where that is known and to be shown.
    pub(super) installed: Option<&'a InstalledRun>,
}

/// A hose laid out.
#[derive(Debug, Clone)]
pub(super) struct StripLayout {
    /// Cut end A.
    pub(super) left: f64,
    /// Cut end B.
    pub(super) right: f64,
    points_per_mm: f64,
    pub(super) heights: Heights,
    /// The grips of the two sockets.
    pub(super) sockets: [(f64, f64); 2],
    pub(super) bends: Vec<StripBend>,
    pub(super) clamps: Vec<StripClamp>,
    /// What was found fault with, worst last.
    pub(super) marks: Vec<StripMark>,
    /// What fits; nothing overlaps.
    pub(super) labels: Vec<StripLabel>,
    /// The limit in words.
    pub(super) limit: String,
    /// The curvature as installed, a line for each free length: x and curvature over the limit's.
    pub(super) installed: Vec<Vec<(f64, f64)>>,
    /// Curvature over the limit's at the top of the curve's room.
    full_share: f64,
}

/// Where things are from top to bottom.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Heights {
    /// Middle of the words at the cursor.
    pub(super) cursor: f64,
    /// Top and foot of the curvature.
    pub(super) curve: (f64, f64),
    /// Top and bottom of the hose.
    pub(super) hose: (f64, f64),
    /// Rows of text below it.
    pub(super) rows: usize,
}

impl Heights {
    fn of(frame: Area) -> Self {
        let tall = frame.max.y - frame.min.y > 140.0;
        let (rows, thick, below) = if tall { (3, 18.0, 16.0) } else { (2, 13.0, 11.0) };
        let bottom = frame.max.y - below - ROW * rows as f64;
        let hose = (bottom - thick, bottom);
        let top = frame.min.y + if tall { 46.0 } else { 23.0 };
        let foot = hose.0 - if tall { 15.0 } else { 7.0 };
        Self {
            cursor: frame.min.y + if tall { 34.0 } else { 15.0 },
            curve: (top.min(foot - 8.0), foot),
            hose,
            rows,
        }
    }

    /// Top of a row of text.
    pub(super) fn row(&self, row: usize) -> f64 {
        self.hose.1 + 5.0 + ROW * row as f64
    }
}

/// A bend on the strip.
#[derive(Debug, Clone)]
pub(super) struct StripBend {
    pub(super) from: f64,
    pub(super) to: f64,
    /// Tighter than the hose may be bent.
    pub(super) is_tight: bool,
    /// Curvature over the limit's: above 1 is too tight. Endless at a corner of no radius.
    pub(super) share: f64,
    /// What to take hold of to change it: its corner or clamp, or the port whose straight makes it.
    pub(super) thing: Thing,
    /// "63.2°, R 4 3/4".
    pub(super) said: String,
}

/// A clamp on the strip.
#[derive(Debug, Clone)]
pub(super) struct StripClamp {
    pub(super) middle: f64,
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) thing: Thing,
    /// "clamp 2".
    pub(super) said: String,
}

/// A finding at its place.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct StripMark {
    pub(super) x: f64,
    /// Its place in the list.
    pub(super) finding: usize,
    pub(super) severity: Severity,
}

impl StripLayout {
    /// Lays a hose out in a frame. `measure` gives the width of a text.
    pub(super) fn new(shown: Shown<'_>, frame: Area, measure: &dyn Fn(&str) -> f64) -> Self {
        let Shown { solved, unit, .. } = shown;
        let limit = words::limit(solved, unit);
        let left = frame.min.x + 58.0;
        let right = (frame.max.x - (measure(&limit) + 18.0).max(58.0)).max(left + 1.0);
        let bends = solved.bends();
        let mut strip = Self {
            left,
            right,
            points_per_mm: (right - left) / solved.cut_length_mm,
            heights: Heights::of(frame),
            sockets: [(left, left); 2],
            bends: Vec::new(),
            clamps: Vec::new(),
            marks: Vec::new(),
            labels: Vec::new(),
            limit,
            installed: Vec::new(),
            full_share: 1.0,
        };
        let length = solved.centreline_mm;
        strip.sockets = [
            strip.span(solved, 0.0, solved.from.end.socket_mm),
            strip.span(solved, length - solved.to.end.socket_mm, length),
        ];
        strip.bends = bends.iter().map(|bend| strip.bend(shown, bend)).collect();
        strip.clamps = strip.clamps_of(shown);
        strip.marks = strip.marks_of(shown);
        strip.installed = shown
            .installed
            .map_or_else(Vec::new, |installed| strip.installed_of(installed, solved));
        let shares = strip.bends.iter().map(|bend| bend.share);
        let as_installed = strip.installed.iter().flatten().map(|(_, share)| *share);
        let tightest = shares.chain(as_installed).fold(0.0, f64::max);
        strip.full_share = tightest.clamp(1.3, 2.6);
        let requests = strip.requests(shown, &bends);
        let bounds = (frame.min.x + 8.0, frame.max.x - 8.0);
        strip.labels = label::place(requests, bounds, strip.heights.rows, measure);
        strip
    }

    /// Where a place of the drawn centre line is.
    pub(super) fn x(&self, run: &RunSolution, at_mm: f64) -> f64 {
        let at_mm = at_mm.clamp(0.0, run.centreline_mm);
        self.left + run.on_bench_mm(at_mm) * self.points_per_mm
    }

    fn span(&self, run: &RunSolution, from_mm: f64, to_mm: f64) -> (f64, f64) {
        (self.x(run, from_mm), self.x(run, to_mm))
    }

    /// How far from cut end A a place of the strip is, mm; held to the hose.
    pub(super) fn bench_mm(&self, x: f64) -> f64 {
        (x.clamp(self.left, self.right) - self.left) / self.points_per_mm
    }

    /// The height of a curvature, given over the limit's; held to the curve's room.
    pub(super) fn curve_y(&self, share: f64) -> f64 {
        let (top, foot) = self.heights.curve;
        foot - (foot - top) * (share / self.full_share).min(1.0)
    }

    /// Whether a curvature goes on above the curve's room.
    pub(super) fn is_off_scale(&self, share: f64) -> bool {
        share > self.full_share + 1e-9
    }

    /// The curvature of what could be solved.
    fn installed_of(&self, installed: &InstalledRun, solved: &RunSolution) -> Vec<Vec<(f64, f64)>> {
        let spans =
            installed.spans.iter().filter_map(|span| Some((span.from_mm, span.shape.as_ref()?)));
        spans
            .map(|(from_mm, shape)| {
                let nodes = shape.stations.iter().zip(&shape.curvatures);
                let x = |at: f64| self.left + (from_mm + at) * self.points_per_mm;
                nodes.map(|(at, k)| (x(*at), k * solved.radius_limit_mm)).collect()
            })
            .collect()
    }

    fn bend(&self, shown: Shown<'_>, bend: &Bend) -> StripBend {
        let Shown { run, solved, unit, .. } = shown;
        let half = bend.radius_mm * bend.angle_deg.to_radians() / 2.0;
        let (from, to) = self.span(solved, bend.at_mm - half, bend.at_mm + half);
        // A sharp corner has no length; it is to be seen all the same.
        let wider = (3.0 - (to - from)).max(0.0) / 2.0;
        let via = |via: u32| Thing::Via { run: run.id.clone(), via: via as usize };
        let share = solved.radius_limit_mm / bend.radius_mm;
        StripBend {
            from: from - wider,
            to: to + wider,
            is_tight: words::is_tight(solved, bend),
            share: if bend.radius_mm > 0.0 { share } else { f64::INFINITY },
            thing: match bend.place {
                BendPlace::Corner(i) | BendPlace::BeforeClamp(i) | BendPlace::AfterClamp(i) => {
                    via(i)
                }
                BendPlace::StraightA => Thing::Port(run.from.port.clone()),
                BendPlace::StraightB => Thing::Port(run.to.port.clone()),
            },
            said: words::bend(solved, bend, unit).swap_remove(0),
        }
    }

    fn clamps_of(&self, shown: Shown<'_>) -> Vec<StripClamp> {
        let Shown { run, solved, .. } = shown;
        let clamps = solved.clamps.iter().map(|clamp| {
            let half = clamp.half_grip_mm;
            let (from, to) = self.span(solved, clamp.at_mm - half, clamp.at_mm + half);
            StripClamp {
                middle: self.x(solved, clamp.at_mm),
                from,
                to,
                thing: Thing::Via { run: run.id.clone(), via: clamp.via },
                said: via_name(run, clamp.via).to_lowercase(),
            }
        });
        clamps.collect()
    }

    /// Notes and what comes of another finding stay quiet, but for the one looked at.
    fn marks_of(&self, shown: Shown<'_>) -> Vec<StripMark> {
        let consequences = shown.told.consequences();
        let is_quiet = |index: usize, finding: &Finding| {
            finding.severity == Severity::Note || consequences.contains(&index)
        };
        let own = shown.findings.iter().enumerate().filter(|(index, finding)| {
            finding.run.as_ref() == Some(&shown.run.id)
                && (!is_quiet(*index, finding) || shown.looked_at == Some(*index))
        });
        let mut marks: Vec<_> = own
            .filter_map(|(index, finding)| {
                let x = self.x(shown.solved, finding.at_mm?);
                Some(StripMark { x, finding: index, severity: finding.severity })
            })
            .collect();
        marks.sort_by_key(|mark| {
            let looked_at = shown.looked_at == Some(mark.finding);
            (looked_at, std::cmp::Reverse(mark.severity), std::cmp::Reverse(mark.finding))
        });
        marks
    }

    fn requests(&self, shown: Shown<'_>, bends: &[Bend]) -> Vec<LabelRequest> {
        let Shown { solved, unit, .. } = shown;
        let request =
            |kind, anchor, texts| LabelRequest { kind, texts, anchor, most: f64::INFINITY };
        let mut requests = vec![
            request(LabelKind::Cut, self.left, vec!["A cut".to_owned()]),
            request(LabelKind::Cut, self.right, vec!["cut B".to_owned()]),
        ];
        for (clamp, mark) in solved.clamps.iter().zip(&self.clamps) {
            let texts = words::clamp(solved.on_bench_mm(clamp.at_mm), unit);
            requests.push(request(LabelKind::Clamp, mark.middle, texts));
        }
        for (bend, mark) in bends.iter().zip(&self.bends) {
            let kind = if mark.is_tight { LabelKind::Tight } else { LabelKind::Bend };
            let middle = f64::midpoint(mark.from, mark.to);
            requests.push(request(kind, middle, words::bend(solved, bend, unit)));
        }
        requests.extend(self.stretches().into_iter().map(|(from, to)| {
            let length = Length::from_mm((to - from) / self.points_per_mm);
            LabelRequest {
                kind: LabelKind::Stretch,
                texts: vec![format!("{} straight", length.show(unit)), length.number(unit)],
                anchor: f64::midpoint(from, to),
                most: to - from,
            }
        }));
        requests
    }

    /// The straight stretches between sockets and bends.
    fn stretches(&self) -> Vec<(f64, f64)> {
        let mut found = Vec::with_capacity(self.bends.len() + 1);
        let mut from = self.sockets[0].1;
        let ends = self.bends.iter().map(|bend| (bend.from, bend.to));
        for (start, end) in ends.chain([(self.sockets[1].0, self.right)]) {
            if start > from {
                found.push((from, start));
            }
            from = from.max(end);
        }
        found
    }

    /// The clamp under a place of the strip.
    pub(super) fn clamp_at(&self, x: f64) -> Option<&StripClamp> {
        const REACH: f64 = 5.0;
        let near = self.clamps.iter().filter(|c| x >= c.from - REACH && x <= c.to + REACH);
        near.min_by(|a, b| (a.middle - x).abs().total_cmp(&(b.middle - x).abs()))
    }

    /// The bend under a place of the strip.
    pub(super) fn bend_at(&self, x: f64) -> Option<&StripBend> {
        self.bends.iter().find(|bend| x >= bend.from && x <= bend.to)
    }

    /// The clamp or the bend under a place of the strip.
    pub(super) fn thing_at(&self, x: f64) -> Option<&Thing> {
        let clamp = self.clamp_at(x).map(|clamp| &clamp.thing);
        clamp.or_else(|| self.bend_at(x).map(|bend| &bend.thing))
    }

    /// Where a clamp is, or the bend that a corner makes.
    pub(super) fn middle_of(&self, thing: &Thing) -> Option<f64> {
        let clamp = self.clamps.iter().find(|clamp| clamp.thing == *thing);
        // A port is in no place along the hose, though a bend beside it is selected by it.
        let of_hose = thing.run().is_some();
        let bend = self.bends.iter().find(|bend| of_hose && bend.thing == *thing);
        let middle = |bend: &StripBend| f64::midpoint(bend.from, bend.to);
        clamp.map(|clamp| clamp.middle).or_else(|| bend.map(middle))
    }

    /// The finding whose mark is under a point.
    pub(super) fn mark_at(&self, x: f64, y: f64) -> Option<usize> {
        const REACH: f64 = 8.0;
        let near = |mark: &&StripMark| (mark.x - x).abs() <= REACH;
        let level = (y - self.heights.hose.0).abs() <= REACH;
        self.marks.iter().rev().filter(|_| level).find(near).map(|mark| mark.finding)
    }

    /// "22 3/4 in from A", and what the hose does there.
    pub(super) fn words_at(&self, run: &RunSolution, at_mm: f64, unit: LengthUnit) -> [String; 2] {
        let x = self.x(run, at_mm);
        let gripped = self.sockets.iter().any(|socket| x >= socket.0 && x <= socket.1);
        let clamp = self.clamp_at(x).map(|clamp| clamp.said.as_str());
        [
            words::from_a(run.on_bench_mm(at_mm), unit),
            words::what_is_there(self.bend_at(x).map(|bend| &*bend.said), clamp, gripped),
        ]
    }
}

#[cfg(test)]
#[path = "tests.rs"]
mod tests;

//! Where everything on the bench strip is. Pure and in f64: x is along the hose from cut end A, screen
//! points; `bench` in names means laid straight with its slack.

use crate::app::canvas::thing::Thing;
use crate::engine::{Bend, BendPlace, RunSolution};
use crate::units::{Angle, EPS_MM, Length, LengthUnit};

/// A hose laid out.
#[derive(Debug, Clone)]
pub(super) struct StripLayout {
    /// Cut end A.
    pub(super) left: f64,
    /// Cut end B.
    pub(super) right: f64,
    points_per_mm: f64,
    /// The grips of the two sockets.
    pub(super) sockets: [(f64, f64); 2],
    pub(super) bends: Vec<StripBend>,
    pub(super) clamps: Vec<StripClamp>,
    /// What fits, each in its row below the hose; none overlaps another.
    pub(super) labels: Vec<StripLabel>,
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
    /// The corner or clamp that makes it, where one does.
    pub(super) thing: Option<Thing>,
}

/// A clamp on the strip.
#[derive(Debug, Clone)]
pub(super) struct StripClamp {
    pub(super) middle: f64,
    pub(super) from: f64,
    pub(super) to: f64,
    pub(super) thing: Thing,
}

/// A text below the strip.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct StripLabel {
    pub(super) text: String,
    /// Middle of the text.
    pub(super) x: f64,
    /// From 0, right below the hose, downwards.
    pub(super) row: usize,
    pub(super) kind: LabelKind,
    half: f64,
}

/// What a text is about; also its rank where there is no room for all.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum LabelKind {
    Cut,
    Clamp,
    Tight,
    Bend,
}

/// Rows of text below the hose: bends in the first, what is marked in the second, and what does not
/// fit there in the third.
const ROWS: usize = 3;
/// Between two texts, points.
const GAP: f64 = 8.0;

impl StripLayout {
    /// The hose from `left` to `right`. `measure` gives the width of a text.
    pub(super) fn new(
        run: &RunSolution,
        id: &str,
        (left, right): (f64, f64),
        unit: LengthUnit,
        measure: &dyn Fn(&str) -> f64,
    ) -> Self {
        let points_per_mm = (right - left) / run.cut_length_mm;
        let mut strip = Self {
            left,
            right,
            points_per_mm,
            sockets: [(left, left); 2],
            bends: Vec::new(),
            clamps: Vec::new(),
            labels: Vec::new(),
        };
        let length = run.centreline_mm;
        let span = |from: f64, to: f64| (strip.x(run, from.max(0.0)), strip.x(run, to.min(length)));
        let sockets = [
            span(0.0, run.from.end.socket_mm.min(length)),
            span((length - run.to.end.socket_mm).max(0.0), length),
        ];
        let bends = run.bends();
        let bend_marks = bends.iter().map(|bend| strip.bend(run, id, bend)).collect();
        let clamp_marks = run
            .clamps
            .iter()
            .map(|clamp| {
                let half = clamp.half_width_mm;
                let (from, to) = span(clamp.at_mm - half, clamp.at_mm + half);
                let thing = Thing::Via { run: id.to_owned(), via: clamp.via };
                StripClamp { middle: strip.x(run, clamp.at_mm), from, to, thing }
            })
            .collect();
        strip.bends = bend_marks;
        strip.clamps = clamp_marks;
        strip.sockets = sockets;
        strip.label(run, &bends, unit, measure);
        strip
    }

    /// Where a place of the drawn centre line is.
    pub(super) fn x(&self, run: &RunSolution, at_mm: f64) -> f64 {
        self.left + run.on_bench_mm(at_mm) * self.points_per_mm
    }

    /// How far from cut end A a place of the strip is, mm; held to the hose.
    pub(super) fn bench_mm(&self, x: f64) -> f64 {
        (x.clamp(self.left, self.right) - self.left) / self.points_per_mm
    }

    fn bend(&self, run: &RunSolution, id: &str, bend: &Bend) -> StripBend {
        let half = bend.radius_mm * bend.angle_deg.to_radians() / 2.0;
        let half = half.max(run.hose.outside_mm / 4.0);
        let via = |via: u32| Some(Thing::Via { run: id.to_owned(), via: via as usize });
        StripBend {
            from: self.x(run, (bend.at_mm - half).max(0.0)),
            to: self.x(run, (bend.at_mm + half).min(run.centreline_mm)),
            is_tight: bend.radius_mm < run.radius_limit_mm - EPS_MM,
            share: if bend.radius_mm > 0.0 {
                run.radius_limit_mm / bend.radius_mm
            } else {
                f64::INFINITY
            },
            thing: match bend.place {
                BendPlace::Corner(i) | BendPlace::BeforeClamp(i) | BendPlace::AfterClamp(i) => {
                    via(i)
                }
                BendPlace::LeadA | BendPlace::LeadB => None,
            },
        }
    }

    /// What is under a place of the strip.
    pub(super) fn thing_at(&self, x: f64) -> Option<&Thing> {
        const REACH: f64 = 5.0;
        let clamp = self.clamps.iter().find(|c| x >= c.from - REACH && x <= c.to + REACH);
        let bend = self.bends.iter().find(|bend| x >= bend.from && x <= bend.to);
        clamp.map(|clamp| &clamp.thing).or_else(|| bend?.thing.as_ref())
    }

    /// Whether a place lies in a bend that is too tight.
    pub(super) fn is_tight_at(&self, x: f64) -> bool {
        self.bends.iter().any(|bend| bend.is_tight && x >= bend.from && x <= bend.to)
    }

    fn label(
        &mut self,
        run: &RunSolution,
        bends: &[Bend],
        unit: LengthUnit,
        measure: &dyn Fn(&str) -> f64,
    ) {
        let mut wanted = vec![
            (LabelKind::Cut, self.left, "A cut".to_owned()),
            (LabelKind::Cut, self.right, "cut B".to_owned()),
        ];
        for (clamp, mark) in run.clamps.iter().zip(&self.clamps) {
            let from_a = Length::from_mm(run.on_bench_mm(clamp.at_mm)).show(unit);
            wanted.push((LabelKind::Clamp, mark.middle, format!("clamp {from_a}")));
        }
        for (bend, mark) in bends.iter().zip(&self.bends) {
            let radius = Length::from_mm(bend.radius_mm).number(unit);
            let angle = Angle::from_deg(bend.angle_deg).show();
            let kind = if mark.is_tight { LabelKind::Tight } else { LabelKind::Bend };
            wanted.push((kind, f64::midpoint(mark.from, mark.to), format!("{angle}, R {radius}")));
        }
        wanted.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)));
        for (kind, x, text) in wanted {
            let half = measure(&text) / 2.0;
            let rows = match kind {
                LabelKind::Cut | LabelKind::Clamp => 1..ROWS,
                LabelKind::Tight | LabelKind::Bend => 0..1,
            };
            let free = |row: &usize| {
                let beside = |label: &StripLabel| (label.x - x).abs() >= label.half + half + GAP;
                self.labels.iter().filter(|label| label.row == *row).all(beside)
            };
            if let Some(row) = rows.into_iter().find(free) {
                self.labels.push(StripLabel { text, x, row, kind, half });
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::app::fixture;

    fn strip(bay: &crate::model::Bay, width: f64) -> Vec<StripLayout> {
        let solved = crate::engine::solve(bay);
        let runs = bay.options[0].runs.iter().zip(&solved.routings[0].runs);
        let measure = |text: &str| 6.5 * text.chars().count() as f64;
        let of = |(run, solved): (&crate::model::Run, &Result<RunSolution, _>)| {
            let solved = solved.as_ref().ok()?;
            (solved.cut_length_mm > 0.0).then(|| {
                let ends = (50.0, 50.0 + width);
                StripLayout::new(solved, &run.id, ends, LengthUnit::Inch, &measure)
            })
        };
        runs.filter_map(of).collect()
    }

    proptest! {
        #[test]
        fn no_two_texts_overlap_and_the_ends_are_always_named(width in 40.0_f64..2000.0) {
            for strip in strip(&fixture::car(), width) {
                for (i, a) in strip.labels.iter().enumerate() {
                    for b in strip.labels[i + 1..].iter().filter(|b| b.row == a.row) {
                        prop_assert!((a.x - b.x).abs() >= a.half + b.half);
                    }
                }
                let cuts = strip.labels.iter().filter(|l| l.kind == LabelKind::Cut).count();
                prop_assert_eq!(cuts, 2);
            }
        }
    }

    #[test]
    fn from_the_drawing_to_the_bench_and_back() {
        for run in crate::engine::solve(&fixture::car()).routings[0].runs.iter().flatten() {
            for k in 0..=50 {
                let at = run.centreline_mm * f64::from(k) / 50.0;
                let back = run.drawn_at_mm(run.on_bench_mm(at));
                assert!((back - at).abs() < 1e-9, "{at} {back}");
            }
        }
    }

    #[test]
    fn bends_stand_between_the_sockets_and_in_order() {
        for strip in strip(&fixture::car(), 900.0) {
            let mut x = strip.left;
            for bend in &strip.bends {
                assert!(bend.from >= x - 1e-6 && bend.to <= strip.right + 1e-6, "{bend:?}");
                x = f64::midpoint(bend.from, bend.to);
            }
        }
    }

    #[test]
    fn pointing_at_a_place_gives_its_distance_from_a() {
        for strip in strip(&fixture::car(), 900.0) {
            assert!(strip.bench_mm(strip.left - 30.0).abs() < 1e-9);
            let whole = strip.bench_mm(strip.right + 30.0);
            assert!(
                (strip.bench_mm(f64::midpoint(strip.left, strip.right)) - whole / 2.0).abs() < 1e-9
            );
            for clamp in &strip.clamps {
                assert_eq!(strip.thing_at(clamp.middle), Some(&clamp.thing));
            }
        }
    }
}

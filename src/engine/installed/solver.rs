//! From a measured run to its installed shape.

use std::sync::Arc;

use glam::DVec3;
use rayon::prelude::*;

use crate::engine::{RoutingSolution, RunSolution};
use crate::geom::Piece;
use crate::geom::rod::{RodError, RodForm, RodSeed, RodShape, RodSolver, RodSpan};

use super::drawn::{off_drawn, stretch, tangents};
use super::holds::{Gap, Grip, Holds, grips_and_gaps, spans};
use super::result::{Bulge, InstalledRun, InstalledSpan, SpanNote, Tightest};

/// How far the chain of straights and arcs may be off the installed shape.
pub const CHAIN_ACCURACY_MM: f64 = 0.005;
/// Down, where shapes that tie hang (the axes of ISO 8855: Z up).
const DOWN: DVec3 = DVec3::NEG_Z;
/// Least share of the way between two positions that is followed before a shape is said to snap.
const LEAST_SHARE: f64 = 1.0 / 32.0;

/// The installed shapes of all runs of a routing, solved side by side, in the order of its runs; none where a
/// reference of a run leads nowhere.
pub fn installed(routing: &RoutingSolution) -> Vec<Option<InstalledRun>> {
    let runs = routing.runs.par_iter();
    runs.map_init(InstalledSolver::default, |solver, run| {
        run.as_ref().ok().map(|run| solver.installed(run))
    })
    .collect()
}

/// Solves installed shapes one after the other in the same memory. Its answers do not depend on what it solved
/// before.
#[derive(Debug, Clone, Default)]
pub struct InstalledSolver {
    rod: RodSolver,
    route: Vec<DVec3>,
    drawn: Vec<(f64, Piece)>,
}

impl InstalledSolver {
    /// The installed shape that the drawn route leads to, in the position as drawn, at the run's own cut length.
    pub fn installed(&mut self, run: &RunSolution) -> InstalledRun {
        self.installed_at(run, run.cut_length_mm, &Holds::as_drawn(run), None)
    }

    /// The installed shape at another cut length or in another position. The hose has been laid in the position as drawn:
    /// each span has its drawn length and its share of what `cut_length_mm` is over the drawn
    /// centre line, also in a position that moves the holds. `before` is an installed shape of the same run (in the
    /// position as drawn, or a moment ago) from which it comes; without it the drawn route leads.
    pub fn installed_at(
        &mut self,
        run: &RunSolution,
        cut_length_mm: f64,
        holds: &Holds,
        before: Option<&InstalledRun>,
    ) -> InstalledRun {
        let builder = self.lay(run, cut_length_mm, holds, before).built();
        self.drawn.clear();
        self.drawn.extend(run.centre_line.pieces());
        builder.finish(&self.drawn)
    }

    /// What [`Self::installed_at`] gives without an installed shape before, but its bulge, and only where it bends no tighter
    /// than `least_mm`: for looking at many lengths.
    pub fn sketch_at(
        &mut self,
        run: &RunSolution,
        cut_length_mm: f64,
        holds: &Holds,
        least_mm: f64,
    ) -> Sketch {
        let laid = self.lay(run, cut_length_mm, holds, None);
        match laid.min_radius_mm() {
            None => Sketch::NotSolved,
            Some(radius_mm) if radius_mm < least_mm => Sketch::TooTight(radius_mm),
            Some(_) => Sketch::Installed(Box::new(laid.built().installed)),
        }
    }

    /// Solves the spans, from end A on.
    fn lay(
        &mut self,
        run: &RunSolution,
        cut_length_mm: f64,
        holds: &Holds,
        before: Option<&InstalledRun>,
    ) -> Laid {
        let (grips, gaps) = grips_and_gaps(run, holds);
        let held = spans(run, cut_length_mm, &grips, &gaps);
        let mut laid = Laid { cut_length_mm, spans: Vec::with_capacity(gaps.len()), grips };
        let (mut at_mm, mut index) = (0.0, 0);
        for (i, (gap, held)) in gaps.iter().zip(held).enumerate() {
            at_mm += laid.grips.get(i).map_or(0.0, |grip| grip.length_mm);
            laid.spans.push(held.map(|held| {
                let earlier = before.and_then(|installed| installed.spans.get(index));
                let drawn = stretch(&run.centre_line, gap.from_mm, gap.to_mm);
                let span = self.span(held, *gap, &drawn, earlier, at_mm);
                (at_mm, index) = (at_mm + held.length, index + 1);
                (span, drawn)
            }));
        }
        laid
    }

    /// Tightest radius alone, at another cut length in the position as drawn: infinite where nothing bends,
    /// none where a span cannot be solved.
    pub fn min_radius_at(&mut self, run: &RunSolution, cut_length_mm: f64) -> Option<f64> {
        let (grips, gaps) = grips_and_gaps(run, &Holds::as_drawn(run));
        let spans = spans(run, cut_length_mm, &grips, &gaps);
        let mut tightest = f64::INFINITY;
        for (gap, held) in gaps.iter().zip(&spans) {
            let Some(held) = held else { continue };
            let drawn = stretch(&run.centre_line, gap.from_mm, gap.to_mm);
            let shape = self.led_by_drawn(held, &drawn).ok()?;
            tightest = tightest.min(shape.min_radius().unwrap_or(f64::INFINITY));
        }
        Some(tightest)
    }

    fn span(
        &mut self,
        held: RodSpan,
        gap: Gap,
        drawn: &[Piece],
        before: Option<&InstalledSpan>,
        from_mm: f64,
    ) -> InstalledSpan {
        let mut notes = Vec::new();
        let before = before.and_then(|span| Some((&span.held, span.shape.as_ref()?)));
        let before = before.filter(|(_, shape)| shape.how.form == RodForm::Pieces);
        let continued = before.and_then(|(from, shape)| self.continue_from(from, shape, &held));
        if before.is_some() && continued.is_none() {
            notes.push(SpanNote::Snapped);
        }
        let solved = continued.map_or_else(|| self.led_by_drawn(&held, drawn), Ok);
        if let Err(why) = &solved {
            // What cannot be solved has not been seen to snap.
            notes.clear();
            notes.push(SpanNote::NotSolved(*why));
        }
        let mut span = InstalledSpan {
            held,
            from_mm,
            drawn_from_mm: gap.from_mm,
            drawn_to_mm: gap.to_mm,
            shape: solved.ok(),
            notes,
        };
        span.note_shape();
        span
    }

    fn led_by_drawn(&mut self, held: &RodSpan, drawn: &[Piece]) -> Result<RodShape, RodError> {
        tangents(drawn, &mut self.route);
        self.rod.solve(held, RodSeed::Route(&self.route), DOWN).cloned()
    }

    /// Follows a shape from the span it solves to another, in steps small enough for it to stay the
    /// same shape. None where it does not: it snaps, or it gets nearly taut, or there is none.
    fn continue_from(
        &mut self,
        from: &RodSpan,
        shape: &RodShape,
        to: &RodSpan,
    ) -> Option<RodShape> {
        let (mut reached, mut step) = (0.0, 1.0);
        let mut last: Option<RodShape> = None;
        while reached < 1.0 {
            let next = f64::min(reached + step, 1.0);
            let held = if next < 1.0 { mix(from, to, next) } else { *to };
            let seed = RodSeed::Previous(last.as_ref().unwrap_or(shape));
            match self.rod.solve(&held, seed, DOWN) {
                Ok(found) if found.how.warm => {
                    last = Some(found.clone());
                    reached = next;
                }
                // One that has become nearly taut is the only shape there is.
                Ok(found) if next >= 1.0 && found.how.form != RodForm::Pieces => {
                    return Some(found.clone());
                }
                _ => {
                    step *= 0.5;
                    if step < LEAST_SHARE {
                        return None;
                    }
                }
            }
        }
        last
    }
}

/// What a look at one length gives.
#[derive(Debug, Clone, PartialEq)]
pub enum Sketch {
    /// A span could not be solved.
    NotSolved,
    /// It bends tighter than was asked for: to this radius, mm.
    TooTight(f64),
    /// The installed shape; its bulge is not calculated.
    Installed(Box<InstalledRun>),
}

/// The spans of a run, solved.
struct Laid {
    cut_length_mm: f64,
    grips: Vec<Grip>,
    /// Between the grips, each with its drawn route; none where two grips meet.
    spans: Vec<Option<(InstalledSpan, Vec<Piece>)>>,
}

impl Laid {
    /// Infinite where nothing bends, none where a span is not solved.
    fn min_radius_mm(&self) -> Option<f64> {
        let spans = self.spans.iter().flatten();
        spans.map(|(span, _)| span.shape.as_ref()).try_fold(f64::INFINITY, |least, shape| {
            Some(least.min(shape?.min_radius().unwrap_or(f64::INFINITY)))
        })
    }

    fn built(self) -> Builder {
        let mut builder = Builder::new(self.cut_length_mm);
        let mut spans = self.spans.into_iter();
        for grip in &self.grips {
            builder.grip(grip);
            if let Some((span, drawn)) = spans.next().flatten() {
                builder.span(span, drawn);
            }
        }
        builder
    }
}

/// Part of the way from one span to another.
fn mix(a: &RodSpan, b: &RodSpan, share: f64) -> RodSpan {
    RodSpan {
        from: a.from.lerp(b.from, share),
        from_direction: a.from_direction.lerp(b.from_direction, share),
        to: a.to.lerp(b.to, share),
        to_direction: a.to_direction.lerp(b.to_direction, share),
        length: a.length + (b.length - a.length) * share,
    }
}

/// Puts an installed shape together from end A on.
struct Builder {
    installed: InstalledRun,
    at_mm: f64,
    /// Distance along the hose of each point.
    stations: Vec<f64>,
}

impl Builder {
    fn new(cut_length_mm: f64) -> Self {
        let installed = InstalledRun {
            cut_length_mm,
            spans: Vec::new(),
            tightest: None,
            bending_energy_1_per_mm: 0.0,
            bulge: Bulge::default(),
            pieces: Vec::new(),
            points: Arc::default(),
        };
        Self { installed, at_mm: 0.0, stations: Vec::new() }
    }

    fn grip(&mut self, grip: &Grip) {
        self.point(self.at_mm, grip.start);
        if grip.length_mm > 0.0 {
            self.piece(Piece::Line {
                start: grip.start,
                direction: grip.along,
                length: grip.length_mm,
            });
            self.point(self.at_mm, grip.end());
        }
    }

    fn piece(&mut self, piece: Piece) {
        self.installed.pieces.push((self.at_mm, piece));
        self.at_mm += piece.length();
    }

    /// A point, but not the last one again.
    fn point(&mut self, at_mm: f64, point: DVec3) {
        if self.installed.points.last() != Some(&point) {
            Arc::make_mut(&mut self.installed.points).push(point);
            self.stations.push(at_mm);
        }
    }

    fn span(&mut self, span: InstalledSpan, drawn: Vec<Piece>) {
        let (begin, index) = (self.at_mm, self.installed.spans.len());
        if let Some(shape) = &span.shape {
            self.shape(shape, begin, index);
        } else {
            self.drawn(drawn, span.held.length, index);
        }
        // Along the hose, not along the arcs that stand for it.
        self.at_mm = begin + span.held.length;
        self.installed.spans.push(span);
    }

    fn shape(&mut self, shape: &RodShape, begin: f64, index: usize) {
        for (s, point) in shape.stations.iter().zip(&shape.points) {
            self.point(begin + s, *point);
        }
        for piece in shape.pieces(CHAIN_ACCURACY_MM) {
            self.piece(piece);
        }
        self.installed.bending_energy_1_per_mm += shape.energy;
        if let Some(radius_mm) = shape.min_radius() {
            let (at_mm, point) = (begin + shape.peak_at, shape.point_at(shape.peak_at));
            self.tightest(Tightest { radius_mm, at_mm, point, span: index });
        }
    }

    /// The drawn route, its length stretched over that of the span.
    fn drawn(&mut self, pieces: Vec<Piece>, length_mm: f64, index: usize) {
        let drawn_mm: f64 = pieces.iter().map(Piece::length).sum();
        let scale = if drawn_mm > 0.0 { length_mm / drawn_mm } else { 1.0 };
        for piece in pieces {
            let length = piece.length();
            let steps = match piece {
                Piece::Line { .. } => 1,
                Piece::Arc { .. } => 16,
            };
            for k in 0..=steps {
                let share = f64::from(k) / f64::from(steps);
                self.point(self.at_mm + share * length * scale, piece.point_at(share * length));
            }
            self.installed.pieces.push((self.at_mm, piece));
            if let Piece::Arc { radius, .. } = piece {
                self.installed.bending_energy_1_per_mm += length / (radius * radius);
                let at_mm = self.at_mm + 0.5 * length * scale;
                let point = piece.point_at(0.5 * length);
                self.tightest(Tightest { radius_mm: radius, at_mm, point, span: index });
            }
            self.at_mm += length * scale;
        }
    }

    fn tightest(&mut self, place: Tightest) {
        if self.installed.tightest.is_none_or(|so_far| place.radius_mm < so_far.radius_mm) {
            self.installed.tightest = Some(place);
        }
    }

    /// Measures the bulge at the points, and by a parabola between them.
    fn finish(mut self, drawn: &[(f64, Piece)]) -> InstalledRun {
        let points = &self.installed.points;
        // A hose of no length lies where it is drawn.
        let is_line = !drawn.is_empty();
        let measured = points.iter().filter(|_| is_line);
        let off: Vec<f64> = measured.map(|point| off_drawn(drawn, *point)).collect();
        let top = (0..off.len()).max_by(|a, b| off[*a].total_cmp(&off[*b]));
        if let Some(top) = top {
            let mut mm = off[top];
            if let (Some(a), Some(c)) = (top.checked_sub(1).map(|i| off[i]), off.get(top + 1)) {
                let bend = 2.0 * mm - a - c;
                if bend > 0.0 {
                    mm += (c - a) * (c - a) / (8.0 * bend);
                }
            }
            self.installed.bulge = Bulge { mm, at_mm: self.stations[top], point: points[top] };
        }
        self.installed
    }
}

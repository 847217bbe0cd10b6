//! The solver: memory that is kept from one solve to the next, and the order of attempts.

use glam::DVec3;

use super::correct::{Corrected, derivatives};
use super::curve::Curve;
use super::error::RodError;
use super::newton::{Descent, Goal, Outcome};
use super::seed::RodSeed;
use super::shape::{RodAccuracy, RodForm, RodShape, Tie};
use super::span::{IN_LINE_RAD, NO_SLACK, Problem, RodSpan, unit};
use super::taut::{TAUT_FROM, TIGHT_FROM, Taut, estimate};

/// Pieces of the answer, where that is fine enough.
pub const ROD_PIECES: usize = 64;
/// Tightness beyond which a span that the closed form does not answer for (a clamp that points
/// straight back along a taut line) is not tried on pieces: its bends are too small for them.
const HOPELESS: f64 = 200.0;
/// Pieces of the first look.
const COARSE: usize = 16;
/// Most pieces.
const FINEST: usize = 2048;
/// Estimated errors aimed at, as shares: a fifth of what an installed shape is to hold (energy 0.2 %, radius
/// 0.5 %).
const WANTED: RodAccuracy = RodAccuracy { energy: 4e-4, radius: 1e-3 };
/// Estimated errors above which no answer is given.
const GREATEST: RodAccuracy = RodAccuracy { energy: 2e-3, radius: 5e-3 };
/// Last Newton step of the answer, rad: what is left after it is a thousandth of it or less.
const SETTLED_RAD: f64 = 1e-5;
/// The same on the grid that only tells the error.
const COARSE_SETTLED_RAD: f64 = 5e-4;
/// Softest mode (a straight clamped line begins near 40) of a shape that is not soft.
const SOFT: f64 = 0.1;
/// What the count of negative pivots may be off by at [`ROD_PIECES`]; it falls with the square of
/// the pieces.
const DOUBT: f64 = 0.3;

/// Solves spans one after the other in the same memory. Its answers do not depend on what it solved
/// before.
#[derive(Debug, Clone, Default)]
pub struct RodSolver {
    descent: Descent,
    start: Curve,
    coarse: Level,
    fine: Level,
    slopes: Vec<DVec3>,
    shape: RodShape,
    pub(super) spare: Curve,
}

/// A solution on one grid.
#[derive(Debug, Clone, Default)]
pub(super) struct Level {
    pub(super) curve: Curve,
    weights: Vec<f64>,
    corrected: Corrected,
}

impl RodSolver {
    /// The stable shape of least ∫κ² ds that `seed` leads to. Of shapes that tie, the one that leans
    /// farthest to `side` (any length but zero) is given, but a seed that is a shape keeps its twin,
    /// and a route that lies off the mirror plane keeps its side.
    ///
    /// # Errors
    /// [`RodError`]; there is no shape then.
    pub fn solve(
        &mut self,
        span: &RodSpan,
        seed: RodSeed<'_>,
        side: DVec3,
    ) -> Result<&RodShape, RodError> {
        let problem = span.scaled()?;
        let side = unit(side).ok_or(RodError::Input)?;
        self.descent.steps = 0;
        if problem.excess() < NO_SLACK {
            return self.straight(span, &problem);
        }
        let taut = Taut::of(&problem);
        if let Some(taut) = taut.filter(|taut| taut.tightness >= TAUT_FROM) {
            taut.shape(span, &problem, &mut self.shape);
            self.shape.close(span.to);
            self.shape.tie = Tie::find(&problem, &self.shape);
            return Ok(&self.shape);
        }
        let taut = taut.filter(|taut| taut.tightness >= TIGHT_FROM);
        let (mut warm, mut rescued) = (false, false);
        if taut.is_none() && estimate(&problem) > HOPELESS {
            return Err(RodError::NotConverged);
        }
        if let RodSeed::Previous(previous) = seed
            && self.near(&problem, previous)
        {
            warm = true;
        } else if !self.first(&problem, seed, side, taut) {
            rescued = true;
            if !self.rescue(&problem, seed, side) {
                return Err(RodError::NotConverged);
            }
        }
        let error = self.improve(&problem)?;
        self.answer(span, &problem, error);
        self.shape.how.warm = warm;
        self.shape.how.rescued = rescued;
        self.choose(span, seed, side);
        Ok(&self.shape)
    }

    /// The shape of the last solve that gave one.
    pub fn shape(&self) -> &RodShape {
        &self.shape
    }

    fn straight(&mut self, span: &RodSpan, problem: &Problem) -> Result<&RodShape, RodError> {
        let along = problem.chord.try_normalize().ok_or(span.too_short())?;
        let in_line = problem.angles_to(along).iter().all(|angle| *angle <= IN_LINE_RAD);
        if problem.excess() < -NO_SLACK || !in_line {
            return Err(span.too_short());
        }
        self.shape.set_straight(span, along);
        Ok(&self.shape)
    }

    /// The first look, on few pieces; a nearly taut one on as many as its bends need.
    fn first(
        &mut self,
        problem: &Problem,
        seed: RodSeed<'_>,
        side: DVec3,
        taut: Option<Taut>,
    ) -> bool {
        let goal = Goal { step: 3e-3, iterations: 60 };
        if let Some(taut) = taut {
            taut.fill(ROD_PIECES / 2, problem, &mut self.start);
        } else {
            // As fine as a bend that the closed form does not answer for wants it.
            let tightness = estimate(problem).min(512.0);
            let fine = (2.0 * tightness) as usize;
            let n = if tightness > TAUT_FROM { fine.next_power_of_two() } else { COARSE };
            self.start.start(n, problem, seed, side);
        }
        self.settle(problem, side, goal)
    }

    /// Descends from `start` to a minimum that holds on the fine grids too, leaving saddles.
    pub(super) fn settle(&mut self, problem: &Problem, side: DVec3, goal: Goal) -> bool {
        for _ in 0..3 {
            // On few pieces the count of a soft shape is not sure: the fine grid decides.
            let outcome = self.descent.minimise(problem, &mut self.start, goal);
            if outcome == Outcome::Stalled {
                return false;
            }
            if self.refine(problem) {
                return true;
            }
            if outcome == Outcome::Minimum || !self.descent.kick(&mut self.start, side, 0.3) {
                return false;
            }
        }
        false
    }

    /// Descends from `start` to a minimum on its own pieces, leaving saddles.
    pub(super) fn descend(&mut self, problem: &Problem, side: DVec3, goal: Goal) -> bool {
        for _ in 0..3 {
            match self.descent.minimise(problem, &mut self.start, goal) {
                Outcome::Minimum => return true,
                Outcome::Stalled => return false,
                Outcome::Saddle => {
                    if !self.descent.kick(&mut self.start, side, 0.3) {
                        return false;
                    }
                }
            }
        }
        false
    }

    /// From the first look to two grids of fourth order.
    pub(super) fn refine(&mut self, problem: &Problem) -> bool {
        let Self { descent, start, coarse, fine, .. } = self;
        if start.pieces() < ROD_PIECES / 2 {
            coarse.prolong_from(start);
        } else {
            coarse.curve.copy_from(start);
        }
        if !coarse.correct(problem, descent, COARSE_SETTLED_RAD)
            && !coarse.settle_then_correct(problem, descent)
        {
            return false;
        }
        fine.prolong(coarse);
        fine.correct(problem, descent, SETTLED_RAD) && fine.is_stable(descent)
    }

    /// Both grids from a shape that differs little.
    fn near(&mut self, problem: &Problem, previous: &RodShape) -> bool {
        let Self { descent, coarse, fine, .. } = self;
        let n = previous.how.pieces as usize;
        if previous.how.form != RodForm::Pieces || previous.tangents.len() != n + 1 {
            return false;
        }
        let force = previous.force * (previous.length * previous.length);
        for (level, stride) in [(&mut *coarse, 2), (&mut *fine, 1)] {
            level.curve.t.clear();
            level.curve.t.extend(previous.tangents.iter().step_by(stride));
            let last = level.curve.t.len() - 1;
            level.curve.t[0] = problem.t0;
            level.curve.t[last] = problem.t1;
            level.curve.force = force;
        }
        fine.correct(problem, descent, SETTLED_RAD) && fine.is_stable(descent) && {
            coarse.halve(fine);
            coarse.correct(problem, descent, COARSE_SETTLED_RAD)
        }
    }

    /// Halves the pieces until the estimated errors are small enough.
    fn improve(&mut self, problem: &Problem) -> Result<RodAccuracy, RodError> {
        loop {
            let error = self.error(problem);
            if error.energy <= WANTED.energy && error.radius <= WANTED.radius {
                return Ok(error);
            }
            if self.fine.curve.pieces() >= FINEST {
                let usable = error.energy <= GREATEST.energy && error.radius <= GREATEST.radius;
                return if usable { Ok(error) } else { Err(RodError::NotConverged) };
            }
            std::mem::swap(&mut self.coarse, &mut self.fine);
            let Self { descent, coarse, fine, .. } = self;
            fine.prolong(coarse);
            let done = fine.correct(problem, descent, SETTLED_RAD)
                || fine.settle_then_correct(problem, descent);
            if !done {
                return Err(RodError::NotConverged);
            }
            if !fine.is_stable(descent) {
                return Err(RodError::Fold);
            }
        }
    }

    /// Fourth order: halving the pieces divides the error by 16, so that the finer grid is off by a
    /// fifteenth of the difference; twice that, to be safe.
    fn error(&self, problem: &Problem) -> RodAccuracy {
        let (fine, coarse) = (self.fine.figures(problem), self.coarse.figures(problem));
        let share = |a: f64, b: f64| 2.0 / 15.0 * (a / b - 1.0).abs();
        RodAccuracy { energy: share(coarse[0], fine[0]), radius: share(coarse[1], fine[1]) }
    }

    /// Writes the fine grid's solution into the shape.
    fn answer(&mut self, span: &RodSpan, problem: &Problem, error: RodAccuracy) {
        let Self { descent, coarse, fine, slopes, shape, .. } = self;
        let curve = &fine.curve;
        let (n, h, length) = (curve.pieces(), curve.step(), span.length);
        shape.clear();
        derivatives(curve, &fine.weights, slopes);
        shape.length = length;
        shape.stations.extend((0..=n).map(|i| length * (i as f64 / n as f64)));
        shape.tangents.extend_from_slice(&curve.t);
        let mut point = span.from;
        shape.points.push(point);
        for (t, d) in curve.t.windows(2).zip(slopes.windows(2)) {
            // Euler and Maclaurin: fourth order.
            point += length * (0.5 * h * (t[0] + t[1]) - h * h / 12.0 * (d[1] - d[0]));
            shape.points.push(point);
        }
        shape.close(span.to);
        let integral = fine.corrected.integral;
        let curvature = |t: &DVec3| (2.0 * (integral - curve.force.dot(*t))).max(0.0).sqrt();
        shape.curvatures.extend(curve.t.iter().map(|t| curvature(t) / length));
        shape.energy = fine.figures(problem)[0] / length;
        shape.force = curve.force / (length * length);
        shape.find_peak();
        shape.error = error;
        shape.how.form = RodForm::Pieces;
        shape.how.pieces = n as u32;
        shape.how.steps = descent.steps;
        shape.tie = Tie::find(problem, shape);
        let allowed = 3 + u32::from(matches!(shape.tie, Tie::AnyWayRound { .. }));
        // The coarser grid will do.
        let softened = descent.count(&coarse.curve, &coarse.weights, -SOFT);
        shape.is_soft = softened.is_none_or(|negative| negative > allowed);
    }

    /// Of shapes that tie, takes the one that leans farthest to `side`.
    fn choose(&mut self, span: &RodSpan, seed: RodSeed<'_>, side: DVec3) {
        match self.shape.tie {
            Tie::None => {}
            Tie::AnyWayRound { axis } => self.shape.turn_towards(axis, side),
            Tie::Twins(twins) => {
                self.shape.how.kept_side = match seed {
                    RodSeed::Previous(_) => self.shape.how.warm,
                    RodSeed::Route(route) => self.shape.lean_as(span, &twins, route),
                    RodSeed::Plain => false,
                };
                if !self.shape.how.kept_side {
                    self.shape.lean_towards(span, &twins, side);
                }
            }
        }
    }

    pub(super) fn parts(&mut self) -> (&mut Curve, &mut Curve) {
        (&mut self.start, &mut self.spare)
    }
}

impl Level {
    /// Whether this is a minimum. One that a shift within the grid's own error makes one counts: it
    /// is soft, and said to be.
    fn is_stable(&self, descent: &mut Descent) -> bool {
        let n = self.curve.pieces() as f64;
        let doubt = DOUBT * (ROD_PIECES as f64 / n).powi(2);
        self.corrected.negative == 3
            || descent.count(&self.curve, &self.weights, doubt).is_some_and(|count| count == 3)
    }

    /// Twice as many pieces, midpoints of fourth order.
    fn prolong(&mut self, coarse: &Self) {
        self.curve.prolong(&coarse.curve, |i| coarse.weights[i]);
    }

    fn prolong_from(&mut self, start: &Curve) {
        let (h, integral) = (start.step(), start.first_integral());
        let weight =
            |i: usize| 1.0 - h * h / 12.0 * (3.0 * start.force.dot(start.t[i]) - 2.0 * integral);
        self.curve.prolong(start, weight);
    }

    /// Every other node of `fine`.
    fn halve(&mut self, fine: &Self) {
        self.curve.t.clear();
        self.curve.t.extend(fine.curve.t.iter().step_by(2));
        self.curve.force = fine.curve.force;
    }

    fn correct(&mut self, problem: &Problem, descent: &mut Descent, tolerance: f64) -> bool {
        let found = descent.correct(problem, &mut self.curve, &mut self.weights, tolerance);
        self.corrected = found.unwrap_or_default();
        found.is_some()
    }

    fn settle_then_correct(&mut self, problem: &Problem, descent: &mut Descent) -> bool {
        let goal = Goal { step: 1e-4, iterations: 40 };
        descent.minimise(problem, &mut self.curve, goal) == Outcome::Minimum
            && self.correct(problem, descent, SETTLED_RAD)
    }

    /// Energy ∫κ² ds and greatest curvature, for length 1.
    fn figures(&self, problem: &Problem) -> [f64; 2] {
        let (curve, integral) = (&self.curve, self.corrected.integral);
        let energy = 2.0 * (integral - curve.force.dot(problem.chord));
        let squares = |i: usize| 2.0 * (integral - curve.force.dot(curve.t[i]));
        let last = curve.t.len() - 1;
        let mut top = 0;
        for i in 1..=last {
            if squares(i) > squares(top) {
                top = i;
            }
        }
        let mut peak = squares(top);
        if top > 0 && top < last {
            let (a, c) = (squares(top - 1), squares(top + 1));
            let bend = 2.0 * peak - a - c;
            if bend > 1e-12 * peak {
                peak += 0.125 * (c - a) * (c - a) / bend;
            }
        }
        [energy, peak.max(0.0).sqrt()]
    }
}

impl Curve {
    /// Twice the pieces of `from`: midpoints `(t + u)/2 − h²/16 (t'' + u'')`, made unit; `h²t''`
    /// is `12 (1 − w) t − h²F`.
    fn prolong(&mut self, from: &Self, weight: impl Fn(usize) -> f64) {
        let h = from.step();
        let pull = h * h / 8.0 * from.force;
        self.t.clear();
        for (i, pair) in from.t.windows(2).enumerate() {
            let (a, b) = (0.5 - 0.75 * (1.0 - weight(i)), 0.5 - 0.75 * (1.0 - weight(i + 1)));
            let middle = a * pair[0] + b * pair[1] + pull;
            self.t.push(pair[0]);
            self.t.push(middle.normalize_or(pair[0]));
        }
        self.t.extend(from.t.last());
        self.force = from.force;
    }
}

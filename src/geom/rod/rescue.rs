//! What is tried when the first start leads nowhere.

use glam::DVec3;

use super::newton::Goal;
use super::seed::RodSeed;
use super::span::{Problem, across};
use super::workspace::RodSolver;

/// Pieces, finer than the first look.
const PIECES: usize = 32;

impl RodSolver {
    /// Other starts: the seed on more pieces; bows to four sides; a longer line, shortened step by
    /// step.
    pub(super) fn rescue(&mut self, problem: &Problem, seed: RodSeed<'_>, side: DVec3) -> bool {
        let goal = Goal { step: 1e-3, iterations: 100 };
        let along = problem.chord.normalize_or(problem.t0);
        let down = across(side, along);
        let sides = [down, along.cross(down), -down, -along.cross(down)];
        for (seed, n) in [(seed, PIECES), (RodSeed::Plain, PIECES), (RodSeed::Plain, 2 * PIECES)] {
            for towards in sides {
                self.parts().0.start(n, problem, seed, towards);
                if self.settle(problem, towards, goal) {
                    return true;
                }
            }
        }
        sides.into_iter().any(|towards| self.shorten(problem, towards))
    }

    /// Continuation in the length: in the scale of length 1, from a nearer end to the wanted one.
    fn shorten(&mut self, problem: &Problem, side: DVec3) -> bool {
        let goal = Goal { step: 1e-4, iterations: 60 };
        let chord = problem.chord;
        let (mut reached, mut step) = (0.6, 0.05);
        let easy = Problem { chord: reached * chord, ..*problem };
        self.parts().0.start(2 * PIECES, &easy, RodSeed::Plain, side);
        if !self.descend(&easy, side, goal) {
            return false;
        }
        while reached < 1.0 {
            let next = (reached + step).min(1.0);
            let harder = Problem { chord: next * chord, ..*problem };
            let (start, spare) = self.parts();
            spare.copy_from(start);
            if self.descend(&harder, side, goal) {
                (reached, step) = (next, step * 1.5);
            } else {
                let (start, spare) = self.parts();
                start.copy_from(spare);
                step *= 0.4;
                if step < 1e-4 {
                    return false;
                }
            }
        }
        self.refine(problem)
    }
}

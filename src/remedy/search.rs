//! What clears a fault: changes tried one by one on the hose alone; the best are tried again among all the
//! others.

use std::collections::BTreeSet;
use std::sync::Arc;

use rayon::prelude::*;

use super::Change;
use super::hint::is_clearable;
use super::places::HoseCase;
use crate::checks::{Finding, Severity, check};
use crate::engine::{Depth, RoutingSolution, Solver};
use crate::model::{Bay, Routing, Run};

/// The search on one hose.
#[derive(Debug, Clone, PartialEq)]
pub struct RemedySearch {
    /// Id of the run.
    pub run: String,
    /// The change that clears most; none where no change clears anything.
    pub remedy: Option<Remedy>,
    /// How many changes were tried.
    pub tried: usize,
}

/// A change that was tried.
#[derive(Debug, Clone, PartialEq)]
pub struct Remedy {
    /// The change.
    pub change: Change,
    /// The run with it.
    pub changed: Run,
    /// Rules that find nothing more on the hose.
    pub clears: BTreeSet<&'static str>,
    /// The cut length with it, mm.
    pub cut_mm: f64,
    /// Whether it leaves fewer faults; else it leaves fewer warnings.
    pub has_fewer_faults: bool,
}

/// Faults and warnings of route and length that are left: fewer are better, faults first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
struct Score {
    fails: usize,
    warns: usize,
}

impl Score {
    fn of<'a>(findings: impl IntoIterator<Item = &'a Finding>) -> Self {
        let mut score = Self { fails: 0, warns: 0 };
        for finding in findings.into_iter().filter(|finding| is_clearable(finding)) {
            match finding.severity {
                Severity::Fail => score.fails += 1,
                Severity::Warn => score.warns += 1,
                Severity::Note => {}
            }
        }
        score
    }

    /// Fewer faults; of none, fewer warnings.
    fn is_cleared_by(self, other: Self) -> bool {
        if self.fails > 0 { other.fails < self.fails } else { other < self }
    }
}

/// The search on each hose that has faults or warnings. `solution` is solved to [`Depth::Bench`];
/// `findings` are all its findings.
pub fn search_routing(
    bay: &Bay,
    routing: &Routing,
    solution: &RoutingSolution,
    findings: &[Arc<Finding>],
) -> Vec<RemedySearch> {
    let places: Vec<usize> = (0..routing.runs.len())
        .filter(|place| {
            let id = Some(routing.runs[*place].id.as_str());
            solution.run(*place).is_some()
                && findings.iter().any(|one| one.run.as_deref() == id && is_clearable(one))
        })
        .collect();
    places.into_par_iter().filter_map(|place| search_run(bay, routing, findings, place)).collect()
}

/// The same for the hose in one place; none where it cannot be solved.
pub fn search_run(
    bay: &Bay,
    routing: &Routing,
    findings: &[Arc<Finding>],
    place: usize,
) -> Option<RemedySearch> {
    let run = routing.runs.get(place)?;
    let alone = Routing { runs: vec![run.clone()], ..routing.clone() };
    let mut solver = Solver::default();
    let solution = solver.routing_to(bay, &alone, Depth::Bench);
    let found = check(bay, &alone, &solution);
    let solved = solution.run(0)?;
    let of_run = findings.iter().map(Arc::as_ref);
    let of_run = of_run.filter(|one| one.run.as_deref() == Some(run.id.as_str()));
    let places_mm: Vec<f64> =
        of_run.clone().filter(|one| is_clearable(one)).filter_map(|one| one.at_mm).collect();
    let case =
        HoseCase { bay, routing: &alone, solution: &solution, run, solved, places_mm: &places_mm };
    let whole = Whole { bay, routing, place, before: Score::of(findings.iter().map(Arc::as_ref)) };
    // Against other hoses there may be faults where alone there are none.
    let alone_before = Score::of(&found);
    let is_among_others = Score::of(of_run.clone()) != alone_before;
    let mut tried = 0;
    let mut best: Option<(Score, Change, Run)> = None;
    let has_fault = Score::of(of_run.clone()).fails > 0;
    for group in HoseCase::groups(has_fault) {
        let changes = group(&case);
        tried += changes.len();
        let limit = best.as_ref().map_or(alone_before, |(score, ..)| *score);
        let mut scored: Vec<(Score, usize)> = score_all(&case, &solver, &changes, limit);
        scored.retain(|(score, _)| {
            let is_better = alone_before.is_cleared_by(*score);
            (is_better || (is_among_others && *score <= alone_before))
                && best.as_ref().is_none_or(|(so_far, ..)| score < so_far)
        });
        scored.sort();
        // It has to hold among the other hoses too; a few of the best are tried.
        for (score, which) in scored.into_iter().take(MOST_AMONG_OTHERS) {
            let Some(changed) = changes[which].made(run, solved) else { continue };
            if whole.is_cleared_by(&changed) {
                best = Some((score, changes[which].clone(), changed));
                break;
            }
        }
        if best.as_ref().is_some_and(|(score, ..)| score.fails == 0) {
            break;
        }
    }
    let remedy = best.map(|(_, change, changed)| {
        let clears = whole.cleared(&changed, &of_run.collect::<Vec<_>>());
        let with = Routing { runs: vec![changed.clone()], ..routing.clone() };
        let solved = solver.routing_to(bay, &with, Depth::Drawn);
        let cut_mm = solved.run(0).map_or(0.0, |solved| solved.cut_length_mm);
        Remedy { change, changed, clears, cut_mm, has_fewer_faults: whole.before.fails > 0 }
    });
    Some(RemedySearch { run: run.id.clone(), remedy, tried })
}

/// A change makes the cut length longer by this factor at most (our own figure).
const MOST_TIMES_AS_LONG: f64 = 1.5;

/// So many of a group's best are tried among all the other hoses.
const MOST_AMONG_OTHERS: usize = 6;

/// The changes that can be made and solved, each with what is left, on the hose alone.
///
/// What has more than `limit` as drawn already is not calculated further: nothing found as drawn goes away.
fn score_all(
    case: &HoseCase<'_>,
    solver: &Solver,
    changes: &[Change],
    limit: Score,
) -> Vec<(Score, usize)> {
    let all = changes.par_iter().enumerate();
    let scored = all.map_init(
        || (solver.clone(), case.routing.clone()),
        |(solver, alone), (which, change)| {
            alone.runs[0] = change.made(case.run, case.solved)?;
            let mut score = Score { fails: 0, warns: 0 };
            for depth in [Depth::Drawn, Depth::Installed, Depth::Motion] {
                let solution = solver.routing_to(case.bay, alone, depth);
                // A hose that is much longer is another hose, not a remedy.
                let most_mm = MOST_TIMES_AS_LONG * case.solved.cut_length_mm;
                solution.run(0).filter(|changed| changed.cut_length_mm <= most_mm)?;
                score = Score::of(&check(case.bay, alone, &solution));
                if score.fails > limit.fails || (limit.fails > 0 && score.fails == limit.fails) {
                    return None;
                }
            }
            Some((score, which))
        },
    );
    scored.flatten_iter().collect()
}

/// The whole routing, to be checked with another run in one place.
struct Whole<'a> {
    bay: &'a Bay,
    routing: &'a Routing,
    place: usize,
    before: Score,
}

impl Whole<'_> {
    fn with(&self, changed: &Run) -> Vec<Finding> {
        let mut routing = self.routing.clone();
        routing.runs[self.place] = changed.clone();
        let solution = Solver::default().routing_to(self.bay, &routing, Depth::Bench);
        check(self.bay, &routing, &solution)
    }

    fn is_cleared_by(&self, changed: &Run) -> bool {
        self.before.is_cleared_by(Score::of(&self.with(changed)))
    }

    /// The rules of the run of which no fault and no warning is left with the change.
    fn cleared(&self, changed: &Run, before: &[&Finding]) -> BTreeSet<&'static str> {
        let after = self.with(changed);
        let after = after.iter().filter(|one| one.run.as_deref() == Some(changed.id.as_str()));
        let is_of =
            |rule: &'static str| move |one: &&Finding| one.rule == rule && is_clearable(one);
        let rules: BTreeSet<&'static str> = before.iter().map(|one| one.rule).collect();
        let gone = rules.into_iter().filter(|rule| {
            before.iter().any(is_of(rule)) && !after.clone().any(|one| is_of(rule)(&one))
        });
        gone.collect()
    }
}

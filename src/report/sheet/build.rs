//! From a bay, its solution and its findings to the finished sheet.

use crate::engine::clearance::TubeClearance;
use crate::engine::lengths::advise;
use crate::engine::motion::Position;
use crate::engine::{EndSolution, RoutingSolution, RunSolution, hose_of};
use crate::model::{Bay, Mark, Routing, Run, Side, Source, name_or};
use crate::report::answer::Answer;
use crate::report::check::Report;

use super::{Sheet, SheetInfo, ends, findings, hose, installed, record};

impl Sheet {
    /// The sheet of one routing.
    pub fn new(answer: &Answer, info: SheetInfo) -> Self {
        let (bay, routing, solution) = (&**answer.bay(), answer.routing(), &answer.solution);
        let unit = bay.show_units;
        let mut hoses = Vec::with_capacity(routing.runs.len());
        let mut left_out = Vec::new();
        let is_asked = info.with_lengths && solution.lay.is_some();
        let advice = if is_asked { advise(bay, routing, solution) } else { Vec::new() };
        for (i, run) in routing.runs.iter().enumerate() {
            match (solution.runs.get(i), answer.flow(i), answer.test(i)) {
                (Some(Ok(run_solution)), Some(flow), Some(test)) => {
                    let clearance = solution.clearance.runs.get(i);
                    let source = hose::Source {
                        bay,
                        run,
                        solution: run_solution,
                        clearance: clearance.and_then(TubeClearance::shown),
                        installed: solution.lay_of(i).map(|lay| installed::Source {
                            lay,
                            motion: solution.motion_of(i),
                            advice: advice.get(i).and_then(Option::as_ref),
                        }),
                        flow,
                        test,
                        answer,
                        place: i,
                    };
                    hoses.push(source.hose_sheet());
                }
                (Some(Err(missing)), ..) => {
                    left_out.push(format!("{}: {missing}", run.shown_name()));
                }
                _ => left_out.push(format!("{}: not solved", run.shown_name())),
            }
        }
        Self {
            title: name_or(&bay.title, "Untitled bay").to_owned(),
            notes: bay.notes.clone(),
            routing_id: routing.id.clone(),
            routing: name_or(&routing.name, &routing.id).to_owned(),
            info,
            unit,
            hoses,
            hose_count: routing.runs.len(),
            left_out,
            bay_findings: findings::lines(answer, None),
            verdict: answer.told.verdict,
            not_measured: not_measured(bay, routing, solution),
            positions: positions(solution),
            leak_tests: record::leak_tests(answer),
            limits: limits(),
            report: Report::new(answer),
        }
    }
}

fn positions(solution: &RoutingSolution) -> Vec<String> {
    let motion = solution.lay.as_ref().and_then(|lay| lay.motion.as_ref());
    let rides = motion.filter(|motion| motion.runs.iter().flatten().any(|run| run.rides));
    rides.map_or_else(Vec::new, |motion| {
        let names = motion.positions.all.iter().enumerate();
        let name = |(place, position): (usize, &Position)| {
            if place == 0 { "as drawn".to_owned() } else { position.name.clone() }
        };
        names.map(name).collect()
    })
}

/// Figures that nobody measured on the parts in hand: one line a hose.
fn not_measured(bay: &Bay, routing: &Routing, solution: &RoutingSolution) -> Vec<String> {
    let solved = routing.runs.iter().zip(&solution.runs);
    solved
        .filter_map(|(run, solution)| Some((run, solution.as_ref().ok()?)))
        .filter_map(|(run, solution)| {
            let figures = unsure(bay, run, solution);
            let name = run.shown_name();
            (!figures.is_empty()).then(|| format!("{name}: {}", figures.join("; ")))
        })
        .collect()
}

fn unsure(bay: &Bay, run: &Run, solution: &RunSolution) -> Vec<String> {
    let mut figures = Vec::new();
    for (side, end) in [(Side::A, &solution.from), (Side::B, &solution.to)] {
        figures.extend(unsure_of_end(side, end));
    }
    let mut add = |what: &str, source: &Source| {
        if source.mark > Mark::Published {
            figures.push(format!("{what}, {source}"));
        }
    };
    if solution.hose.outside_is_known {
        add("outside diameter", &solution.hose.outside_source);
    }
    if let Ok((kind, _)) = hose_of(bay, run) {
        add("bend radius", &kind.sources.bend_radius);
        add("pressure rating", &kind.sources.pressure);
    }
    figures
}

/// The same figures that the rule `end-not-measured` names.
fn unsure_of_end(side: Side, end: &EndSolution) -> Vec<String> {
    let letter = side.letter();
    [("set-back", end.end.set_back_source()), ("socket", &end.end.socket_source)]
        .into_iter()
        .filter(|(_, source)| end.end.is_doubtful(source))
        .map(|(what, source)| format!("{what} {letter}, {source}"))
        .collect()
}

/// What the sheet does not claim.
fn limits() -> Vec<String> {
    let mut limits: Vec<String> = [
        "The lengths follow from the bay as it is drawn: ports, corners, clamps and fittings where the file puts \
         them. Measure your own hose and fittings, and do a dry fit before cutting.",
        "Installed shape: that of least bending energy for the length of each span, held straight in sockets and \
         clamps. Left out: weight, stiffness against twist, a set the hose has taken, friction in clamps, what \
         flow and pressure do to its shape.",
        "Flow: the pressure drop in the hose alone, without end fittings and the height between the ends; where \
         flow is laminar, bends take more than that.",
        "For a capable builder, as a help and without warranty. Local codes, manufacturers’ instructions and \
         licensed technicians come first. Brake and refrigerant lines are not for this sheet.",
    ]
    .map(str::to_owned)
    .to_vec();
    limits.push(ends::thread_note());
    limits
}

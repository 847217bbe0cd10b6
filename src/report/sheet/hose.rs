//! One hose of the sheet.

use glam::DVec2;

use crate::checks::Severity;
use crate::drawing::{Drawing, length_bar, route};
use crate::engine::clearance::NearObstacle;
use crate::engine::flow::{NoFlow, RunFlow};
use crate::engine::leak_test::{NoPressure, TestState, TestVerdict};
use crate::engine::{RunSolution, hose_of, leak_test as engine_leak_test, weakest};
use crate::model::{Bay, Run, Side, TestMethod, name_or, tolerance};
use crate::report::answer::Answer;
use crate::report::captions;
use crate::report::verdict::Verdict;
use crate::units::{Length, LengthUnit, Pressure, first_lower};

use super::marks::WIDTH_MM;
use super::words::{carries, dash_text, gap, port_name, radius, service, working_pressure};
use super::{
    Clearance, Fact, Figures, FinishedHose, FlowFigures, HoseSheet, Shown, cautions, clock, ends,
    findings, flow, installed, leak_test, marks, record, sleeves, steps,
};

/// Heights of the route, of which the greatest is printed that its page has room for, mm.
const ROUTE_MM: [f64; 5] = [76.0, 58.0, 44.0, 34.0, 27.0];
/// Width of the route, against that of what stands beside it.
pub(super) const ROUTE_SHARE: f64 = 1.45;
/// Between the two, mm.
const APART_MM: f64 = 5.0;
/// Width of the bar, mm.
const BAR_MM: f64 = 94.0;

/// What a hose of the sheet is made from.
pub(super) struct Source<'a> {
    pub(super) bay: &'a Bay,
    pub(super) run: &'a Run,
    pub(super) solution: &'a RunSolution,
    pub(super) clearance: Option<NearObstacle>,
    pub(super) installed: Option<installed::Source<'a>>,
    pub(super) flow: &'a Result<RunFlow, NoFlow>,
    pub(super) test: &'a TestVerdict,
    pub(super) answer: &'a Answer,
    pub(super) place: usize,
}

impl Source<'_> {
    pub(super) fn hose_sheet(&self) -> HoseSheet {
        let (bay, run, solution) = (self.bay, self.run, self.solution);
        let unit = bay.show_units;
        let name = run.shown_name();
        let hose = hose_of(bay, run).ok();
        let hose_name = hose.map_or(run.hose.as_str(), |(kind, _)| name_or(&kind.name, &kind.id));
        let clock = clock::clock(solution);
        let marks = marks::marks(solution, unit);
        let findings = findings::lines(self.answer, Some(self.place));
        let tolerance_mm = tolerance::cut_length_tolerance_mm(solution.cut_length_mm);
        let flow = flow::known(run, self.flow, unit);
        HoseSheet {
            id: run.id.clone(),
            name: name.to_owned(),
            number: self.place + 1,
            from: port_name(bay, &run.from.port),
            to: port_name(bay, &run.to.port),
            dash: run.dash,
            size_and_kind: format!("{} {hose_name}", dash_text(run.dash)),
            hose: hose_name.to_owned(),
            service: service(&run.service, unit),
            carries: carries(&run.service, unit),
            pressure: working_pressure(&run.service, unit),
            finished: self.finished(),
            figures: self.figures(flow.figures),
            cut: Shown::bench(solution.cut_length_mm, unit),
            tolerance: Shown::nearest(tolerance_mm, unit),
            tolerance_words: installed::tolerance_in_words(
                self.installed.as_ref().and_then(|source| source.advice),
                solution.cut_length_mm,
                tolerance_mm,
                unit,
            ),
            tolerance_source: tolerance::CUT_LENGTH.to_string(),
            stop: findings
                .iter()
                .filter(|line| line.severity == Severity::Fail)
                .map(|line| line.message.clone())
                .collect(),
            state: state(self.answer.verdict_on(self.place)),
            essentials: self.essentials(unit),
            breakdown: self.breakdown(unit),
            installed: self
                .installed
                .as_ref()
                .map_or_else(Vec::new, |source| installed::facts(source, bay, solution, unit)),
            flow: flow.facts,
            dry_fit: dry_fit(run, solution, unit),
            ends: [
                ends::end(bay, run, Side::A, &solution.from, unit),
                ends::end(bay, run, Side::B, &solution.to, unit),
            ],
            torque: ends::torques(run.dash, unit),
            cautions: cautions::cautions(bay, run),
            steps: hose.map_or_else(Vec::new, |hose| {
                let sleeves = sleeves::step(run, solution, unit);
                let job = steps::Job::new(bay, run, hose, solution.hose.outside_mm, &clock);
                job.with(sleeves).steps()
            }),
            leak_test: hose
                .map_or_else(Vec::new, |hose| leak_test::leak_test(run, hose, solution, unit)),
            stored: hose
                .and_then(|(_, size)| leak_test::stored(run, size, solution.cut_length_mm, unit))
                .into_iter()
                .collect(),
            record: [record::tested(run, self.test, unit), record::made(run, solution, unit)]
                .concat(),
            test_state: record::test_state(run, self.test),
            test_words: record::test_words(run, self.test, unit),
            is_to_be_tested: self.test.state == TestState::NotTested,
            test_key: self.test.state.key().to_owned(),
            blanks: [captions::RESULT, "hose lot", "cut by", "tested by", "date"]
                .map(str::to_owned)
                .to_vec(),
            bar: length_bar(solution.centreline_mm, solution.slack_mm, BAR_MM),
            strip: marks::drawing(name, solution, &marks, unit),
            route: routes(bay, name, solution),
            findings,
            marks,
            clock,
        }
    }

    fn finished(&self) -> FinishedHose {
        let (bay, run, unit) = (self.bay, self.run, self.bay.show_units);
        let bench = &run.bench;
        let size = engine_leak_test::size_of(bay, run);
        let rating = weakest(bay, run)
            .map_or_else(|| "unknown".to_owned(), |(_, bar)| Pressure::from_bar(bar).show(unit));
        let proof = engine_leak_test::test_pressure(TestMethod::Liquid, &run.service, size);
        let trimmed = |text: &str| text.trim().to_owned();
        FinishedHose {
            overall: Shown::nearest(bench.final_mm.unwrap_or(self.solution.overall_mm), unit),
            is_measured: bench.final_mm.is_some(),
            rating,
            proof: match proof {
                _ if run.service.sucks() => leak_test::vacuum(unit).to_owned(),
                Ok(proof) => proof.show(unit),
                Err(NoPressure::LeftToOthers) => {
                    "by its manufacturer or a licensed technician".to_owned()
                }
                Err(_) => "unknown".to_owned(),
            },
            proof_of: if run.service.sucks() { "vacuum test" } else { "proof" },
            lot: trimmed(&bench.lot),
            made_on: trimmed(&bench.made_on),
            replace_by: trimmed(&bench.replace_by),
        }
    }

    fn clearance(&self) -> Option<Clearance> {
        let near = self.clearance?;
        let obstacle = self.bay.obstacles.get(near.obstacle)?;
        Some(Clearance {
            obstacle: obstacle.id.clone(),
            name: obstacle.shown_name().to_owned(),
            gap_mm: near.gap_mm,
            min_clearance_mm: near.min_clearance_mm,
            at_mm: near.at_mm,
        })
    }

    /// What is asked for at the bench.
    fn essentials(&self, unit: LengthUnit) -> Vec<Fact> {
        let solution = self.solution;
        let show = |mm: f64| Length::from_mm(mm).show(unit);
        let made_of = format!("{} + {}", show(solution.centreline_mm), show(solution.slack_mm));
        let bend = radius(solution.min_radius_mm, solution, unit);
        let mut facts = vec![
            Fact::new("centre line + slack", made_of, slack_pct(solution)),
            Fact::new("overall length", show(solution.overall_mm), "laid straight"),
            Fact::new("tightest bend", bend, "centre-line radius"),
        ];
        facts.extend(self.clearance().map(|clearance| Fact {
            label: "clearance".to_owned(),
            ..clearance_fact(&clearance, solution, unit)
        }));
        facts.extend(sleeves::facts(self.run, solution, unit));
        facts
    }

    /// What is looked up, a column each.
    fn breakdown(&self, unit: LengthUnit) -> Vec<Fact> {
        let solution = self.solution;
        let show = |mm: f64| Length::from_mm(mm).show(unit);
        let outside = if solution.hose.outside_is_known {
            Fact::new("outside diameter", show(solution.hose.outside_mm), "")
                .from(solution.hose.outside_source.to_string())
        } else {
            const UNKNOWN: &str = "unknown: the bore stands in; measure yours";
            Fact::new("outside diameter", show(solution.hose.outside_mm), UNKNOWN)
        };
        let mut facts = vec![
            Fact::new("centre line", show(solution.centreline_mm), ""),
            Fact::new("slack", show(solution.slack_mm), slack_pct(solution)),
            Fact::new("cut length, exact", show(solution.cut_length_mm), ""),
            Fact::new("overall length", show(solution.overall_mm), ""),
            Fact::new("tightest bend", radius(solution.min_radius_mm, solution, unit), ""),
        ];
        facts.extend(self.clearance().map(|clearance| Fact {
            remark: clearance.name.clone(),
            ..clearance_fact(&clearance, solution, unit)
        }));
        facts.push(outside);
        facts.extend(weakest(self.bay, self.run).map(|(part, bar)| {
            Fact::new("rated to, weakest part", Pressure::from_bar(bar).show(unit), part)
        }));
        facts
    }

    fn figures(&self, flow: Option<FlowFigures>) -> Figures {
        let (run, solution) = (self.run, self.solution);
        let cut = Length::from_mm(solution.cut_length_mm);
        Figures {
            centreline_mm: solution.centreline_mm,
            slack_pct: solution.slack_pct(),
            slack_mm: solution.slack_mm,
            cut_length_mm: solution.cut_length_mm,
            bench_mm: cut.bench_mm(),
            bench_inch: cut.bench_inch(),
            bench_inch_decimal: cut.bench_sixteenths() as f64 / 16.0,
            overall_mm: solution.overall_mm,
            outside_mm: solution.hose.outside_mm,
            min_radius_mm: solution.min_radius_mm,
            radius_limit_mm: solution.radius_limit_mm,
            clearance: self.clearance(),
            dry_fit_mm: run.dry_fit_mm,
            fluid: run.service.fluid.as_ref().map(|fluid| fluid.word().to_owned()),
            pressure_bar: run.service.pressure_bar,
            temperature_c: run.service.temperature_c,
            flow_lpm: run.service.flow_lpm,
            flow,
        }
    }
}

fn state(verdict: Verdict) -> String {
    match verdict.stop() {
        stop if stop.is_empty() => captions::FINE.to_owned(),
        stop => first_lower(&stop),
    }
}

/// The same route at several heights.
fn routes(bay: &Bay, name: &str, solution: &RunSolution) -> Vec<Drawing> {
    let width = (WIDTH_MM - APART_MM) * ROUTE_SHARE / (ROUTE_SHARE + 1.0);
    let room = |height| DVec2::new(width, height);
    ROUTE_MM.map(|height| route(bay, name, solution, bay.show_units, room(height))).into()
}

fn slack_pct(solution: &RunSolution) -> String {
    // Nothing is told as minus nothing.
    format!("{}\u{a0}%", (solution.slack_pct() * 100.0).round() / 100.0 + 0.0)
}

/// The gap, the obstacle, and where.
fn clearance_fact(clearance: &Clearance, solution: &RunSolution, unit: LengthUnit) -> Fact {
    let at = Length::from_mm(solution.on_bench_mm(clearance.at_mm)).show(unit);
    Fact::new(
        "tightest clearance",
        gap(clearance.gap_mm, clearance.min_clearance_mm, unit),
        format!("{}, at {at}", clearance.name),
    )
}

fn dry_fit(run: &Run, solution: &RunSolution, unit: LengthUnit) -> String {
    let Some(measured_mm) = run.dry_fit_mm else {
        return "not done: lay the hose, or a rope, in the bay first.".to_owned();
    };
    let apart_mm = measured_mm - solution.cut_length_mm;
    let apart = Length::from_mm(apart_mm.abs()).show(unit);
    let measured = Length::from_mm(measured_mm).show(unit);
    let tolerance_mm = tolerance::cut_length_tolerance_mm(solution.cut_length_mm);
    let verdict = if apart_mm.abs() <= tolerance_mm + crate::units::EPS_MM {
        "within the tolerance"
    } else {
        "MORE than the tolerance: find out why before cutting"
    };
    let way = if apart_mm < 0.0 { "shorter" } else { "longer" };
    format!("Measured {measured}: {apart} {way} than calculated, {verdict}.")
}

//! The report: what `check --json` prints, key for key as the contract lists them. What is not
//! known is left out.

mod flow;

use glam::DVec3;
use serde::Serialize;

use crate::checks::{Finding, Unit};
use crate::engine::clearance::{NearObstacle, TubeClearance};
use crate::engine::flow::{NoFlow, RunFlow};
use crate::engine::leak_test::TestVerdict;
use crate::engine::{Bend, RoutingSolution, RunSolution};
use crate::model::{Bay, Run};
use crate::units::Length;

use super::answer::Answer;
use super::flow::why_not_known;
use flow::ReportFlow;

/// The whole document.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct Report {
    #[serde(rename = "report")]
    kind: &'static str,
    version: u32,
    title: String,
    routing: String,
    runs: Vec<ReportRun>,
    findings: Vec<ReportFinding>,
}

/// One hose.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct ReportRun {
    id: String,
    name: String,
    centreline_mm: f64,
    slack_mm: f64,
    cut_length_mm: f64,
    bench_mm: i64,
    bench_inch: String,
    overall_mm: f64,
    min_radius_mm: Option<f64>,
    radius_limit_mm: f64,
    clock_between_deg: Option<f64>,
    bends: Vec<ReportBend>,
    /// The tightest against its minimum clearance; null without obstacles.
    clearance: Option<ReportClearance>,
    #[serde(skip_serializing_if = "Option::is_none")]
    installed: Option<ReportInstalled>,
    #[serde(skip_serializing_if = "Vec::is_empty")]
    positions: Vec<ReportPosition>,
    /// Left out where it is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    flow: Option<ReportFlow>,
    /// Why it is not known, where a flow is given.
    #[serde(skip_serializing_if = "Option::is_none")]
    flow_not_known: Option<String>,
    /// `passed`, `failed`, `incomplete` or `not-tested`.
    leak_test: &'static str,
}

/// How a hose really lies. Where a span could not be solved the drawn route stands for it, and the
/// finding `installed-not-found` says so.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct ReportInstalled {
    /// Null where nothing bends.
    min_radius_mm: Option<f64>,
    clearance: Option<ReportClearance>,
    bulge_mm: f64,
    bending_energy_1_per_mm: f64,
    /// From `E_A` to `E_B`.
    points: Vec<[f64; 3]>,
}

/// A hose in one position.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct ReportPosition {
    position: String,
    /// Null where nothing bends, or where its installed shape could not be found.
    installed_min_radius_mm: Option<f64>,
    /// Hose left between two holds beyond the straight way, shortened by pressure; the least.
    reach_spare_mm: f64,
    clearance: Option<ReportClearance>,
}

/// How near a hose comes to an obstacle; `at_mm` from `E_A`.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct ReportClearance {
    obstacle: String,
    gap_mm: f64,
    min_clearance_mm: f64,
    at_mm: f64,
    point: [f64; 3],
    point_on_obstacle: [f64; 3],
}

/// One bend; `at_mm` is the middle of the arc, from `E_A`.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct ReportBend {
    at_mm: f64,
    angle_deg: f64,
    radius_mm: f64,
    wanted_mm: f64,
}

/// One finding; what it does not have is null.
#[derive(Debug, Clone, PartialEq, Serialize)]
struct ReportFinding {
    rule: &'static str,
    severity: &'static str,
    run: Option<String>,
    other: Option<String>,
    at_mm: Option<f64>,
    point: Option<[f64; 3]>,
    value: Option<f64>,
    limit: Option<f64>,
    unit: Option<&'static str>,
    message: String,
    hint: String,
    source: String,
}

impl Report {
    /// The report of one routing. A run that could not be solved, which a loaded file cannot have,
    /// is left out.
    pub fn new(answer: &Answer) -> Self {
        let (bay, routing, solution) = (&**answer.bay(), answer.routing(), &answer.solution);
        let clearances = solution.clearance.runs.iter().map(TubeClearance::shown);
        let clearances = clearances.chain(std::iter::repeat(None));
        let solved = routing.runs.iter().zip(&solution.runs).zip(clearances);
        Self {
            kind: "hosewright-check",
            version: 1,
            title: bay.title.clone(),
            routing: routing.id.clone(),
            runs: solved
                .enumerate()
                .filter_map(|(place, ((run, s), near))| {
                    let known = (answer.flow(place)?, answer.test(place)?);
                    let run = ReportRun::new(bay, run, s.as_ref().ok()?, near, known);
                    Some(run.with_installed(bay, solution, place))
                })
                .collect(),
            findings: answer.findings.iter().map(|one| ReportFinding::new(one)).collect(),
        }
    }
}

impl ReportRun {
    fn new(
        bay: &Bay,
        run: &Run,
        solution: &RunSolution,
        near: Option<NearObstacle>,
        (flow, test): (&Result<RunFlow, NoFlow>, &TestVerdict),
    ) -> Self {
        let cut = Length::from_mm(solution.cut_length_mm);
        Self {
            id: run.id.clone(),
            name: run.name.clone(),
            centreline_mm: solution.centreline_mm,
            slack_mm: solution.slack_mm,
            cut_length_mm: solution.cut_length_mm,
            bench_mm: cut.bench_mm(),
            bench_inch: cut.bench_inch(),
            overall_mm: solution.overall_mm,
            min_radius_mm: solution.min_radius_mm,
            radius_limit_mm: solution.radius_limit_mm,
            clock_between_deg: solution.clock_between_deg,
            bends: solution.bends().iter().map(ReportBend::new).collect(),
            clearance: near.and_then(|near| ReportClearance::new(bay, &near)),
            installed: None,
            positions: Vec::new(),
            flow_not_known: flow
                .as_ref()
                .err()
                .and_then(|why| why_not_known(why, crate::units::LengthUnit::Mm)),
            flow: flow.as_ref().ok().map(ReportFlow::new),
            leak_test: test.state.key(),
        }
    }

    fn with_installed(self, bay: &Bay, solution: &RoutingSolution, place: usize) -> Self {
        let told = |near: Option<NearObstacle>| ReportClearance::new(bay, &near?);
        let installed = solution.lay_of(place).map(|lay| ReportInstalled {
            min_radius_mm: lay.installed.min_radius_mm(),
            clearance: told(lay.clearance.shown()),
            bulge_mm: lay.installed.bulge.mm,
            bending_energy_1_per_mm: lay.installed.bending_energy_1_per_mm,
            points: lay.installed.points.iter().map(DVec3::to_array).collect(),
        });
        let positions = solution.motion_of(place).map(|(motion, positions)| {
            let all = positions.all.iter().zip(&motion.positions);
            all.map(|(position, found)| ReportPosition {
                position: position.name.clone(),
                installed_min_radius_mm: found.min_radius_mm().filter(|_| found.is_whole),
                reach_spare_mm: found.reach.spare_mm,
                clearance: told(found.shown_clearance()),
            })
            .collect()
        });
        Self { installed, positions: positions.unwrap_or_default(), ..self }
    }
}

impl ReportClearance {
    fn new(bay: &Bay, near: &NearObstacle) -> Option<Self> {
        Some(Self {
            obstacle: bay.obstacles.get(near.obstacle)?.id.clone(),
            gap_mm: near.gap_mm,
            min_clearance_mm: near.min_clearance_mm,
            at_mm: near.at_mm,
            point: near.on_axis.to_array(),
            point_on_obstacle: near.on_obstacle.to_array(),
        })
    }
}

impl ReportBend {
    fn new(bend: &Bend) -> Self {
        Self {
            at_mm: bend.at_mm,
            angle_deg: bend.angle_deg,
            radius_mm: bend.radius_mm,
            wanted_mm: bend.wanted_mm,
        }
    }
}

impl ReportFinding {
    fn new(finding: &Finding) -> Self {
        Self {
            rule: finding.rule,
            severity: finding.severity.word(),
            run: finding.run.clone(),
            other: finding.other.clone(),
            at_mm: finding.at_mm,
            point: finding.point.as_ref().map(DVec3::to_array),
            value: finding.value,
            limit: finding.limit,
            unit: (finding.unit != Unit::None).then(|| finding.unit.word()),
            message: finding.message.clone(),
            hint: finding.hint.clone(),
            source: finding.source.clone(),
        }
    }
}

//! The figures of one routing.

use crate::engine::clearance::{NearObstacle, TubeClearance};
use crate::engine::flow::ColdStart;
use crate::engine::lay::RunLay;
use crate::engine::lengths::{NeededSlack, needed_slacks};
use crate::engine::motion::{Positions, RunMotion};
use crate::engine::{RoutingSolution, RunSolution, hose_kind};
use crate::model::{Bay, Routing, Run, Side, Via, name_or};

use super::drops::{is_asked, taken};
use super::takes::{self, EndUse, HoseUse};
use super::{Against, Found, Sum};

/// Everything that routings are compared by, but for what the checks find.
#[derive(Debug, Clone, PartialEq)]
pub struct RoutingFigures {
    /// Hose by construction and size.
    pub hoses: Vec<HoseUse>,
    /// Ends by kind, size and angle.
    pub ends: Vec<EndUse>,
    /// Number of clamps.
    pub clamps: usize,
    /// Cut lengths of all hoses together; none where one is not known.
    pub hose_mm: Option<f64>,
    /// Hose and ends to be bought, in the bay file's own money.
    pub cost: Sum,
    /// Whether no cut list could cost less.
    pub is_cost_proven: bool,
    /// Hose and ends, dry, kg.
    pub mass_kg: Sum,
    /// Whether groups of the bay move.
    pub moves: bool,
    /// One for each run.
    pub runs: Vec<RunFigures>,
}

/// The figures of one run.
#[derive(Debug, Clone, PartialEq)]
pub struct RunFigures {
    /// Its id.
    pub id: String,
    /// Its name, or its id.
    pub name: String,
    /// Name of the hose.
    pub hose: String,
    /// Its size.
    pub dash: u32,
    /// Both ends: name and angle.
    pub ends: [(String, f64); 2],
    /// Slack given, %.
    pub slack_pct: f64,
    /// Whether its service has a flow that this program sizes hoses for.
    pub has_flow: bool,
    /// None where a reference of the run leads nowhere.
    pub answers: Option<RunAnswers>,
}

/// What the engine says of one run.
#[derive(Debug, Clone, PartialEq)]
pub struct RunAnswers {
    /// Cut length.
    pub cut_mm: f64,
    /// Tightest bend as drawn, against the hose's limit, both at the centre line.
    pub radius: Found<Against>,
    /// The same as installed.
    pub installed_radius: Found<Against>,
    /// The same as installed in its worst position, the one as drawn among them.
    pub position_radius: Found<Against>,
    /// Nearest to an obstacle as drawn, against the obstacle's minimum clearance.
    pub gap: Found<Against>,
    /// The same as installed.
    pub installed_gap: Found<Against>,
    /// The same in its worst position.
    pub position_gap: Found<Against>,
    /// Longest stretch between held points, as drawn, and where it begins from cut end A.
    pub span: Option<(f64, f64)>,
    /// The most pressure that its flow takes, bar; nothing where no flow is given, or where its lines
    /// are not sized by this program.
    pub drop_bar: Found<f64>,
    /// What it does at a cold start, where that is asked.
    pub cold_start: Option<ColdStart>,
    /// How much the slack lacks for every position; none where its ends do not move.
    pub lack: Option<Lack>,
}

/// The slack that a hose needs for every position against what it is given.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Lack {
    /// The least that will do, %; none where none will.
    pub needed_pct: Option<f64>,
    /// What is given, %.
    pub given_pct: f64,
}

impl Lack {
    /// What is lacking, %: nothing where it will do, endless where no slack will.
    pub fn pct(self) -> f64 {
        self.needed_pct.map_or(f64::INFINITY, |needed| (needed - self.given_pct).max(0.0))
    }
}

const INSTALLED_NOT_FOUND: &str = "the installed shape could not be calculated";
const NOT_SOLVED: &str = "a hose could not be calculated";
const NOT_ASKED: &str = "the installed shape was not asked for";

impl RoutingFigures {
    /// The figures of a routing and its [whole solution](crate::engine::solve_whole). Takes as long as
    /// trying the slacks of every run that moves.
    pub fn of(bay: &Bay, routing: &Routing, solution: &RoutingSolution) -> Self {
        let needed = needed_slacks(bay, routing, solution);
        let runs: Vec<RunFigures> = routing
            .runs
            .iter()
            .enumerate()
            .map(|(place, run)| run_figures(bay, run, solution, place, needed.get(place)))
            .collect();
        let cuts = (0..runs.len())
            .map(|place| solution.run(place).map(|solved| takes::to_cut_mm(bay, solved)));
        let (cost, is_cost_proven) = takes::cost(bay, routing, solution);
        let clamps = routing.runs.iter().flat_map(|run| &run.via);
        Self {
            hoses: takes::hoses(bay, routing, solution),
            ends: takes::ends(bay, routing),
            clamps: clamps.filter(|via| matches!(via, Via::Clamp(_))).count(),
            hose_mm: cuts.sum(),
            cost,
            is_cost_proven,
            mass_kg: takes::mass_kg(bay, routing, solution),
            moves: Positions::count_of(bay) > 1,
            runs,
        }
    }

    /// The worst of one figure over the runs, by a key of which less is worse, with the run's place.
    /// One that is not known leaves the worst unknown.
    pub fn worst(
        &self,
        figure: impl Fn(&RunAnswers) -> &Found<Against>,
        key: impl Fn(&Against) -> f64,
    ) -> Found<(usize, Against)> {
        let mut worst: Option<(usize, &Against)> = None;
        for (place, run) in self.runs.iter().enumerate() {
            let Some(answers) = &run.answers else { return Found::NotKnown(NOT_SOLVED) };
            match figure(answers) {
                Found::NotKnown(why) => return Found::NotKnown(why),
                Found::Nothing => {}
                Found::Known(one) => {
                    if worst.is_none_or(|(_, so_far)| key(one) < key(so_far)) {
                        worst = Some((place, one));
                    }
                }
            }
        }
        Found::from_option(worst.map(|(place, one)| (place, one.clone())))
    }

    /// The longest span: the run's place, its length, where it begins.
    pub fn longest_span(&self) -> Found<(usize, f64, f64)> {
        if self.runs.iter().any(|run| run.answers.is_none()) {
            return Found::NotKnown(NOT_SOLVED);
        }
        let spans = self.runs.iter().enumerate().filter_map(|(place, run)| {
            let (length_mm, from_mm) = run.answers.as_ref()?.span?;
            Some((place, length_mm, from_mm))
        });
        Found::from_option(spans.max_by(|a, b| a.1.total_cmp(&b.1)))
    }

    /// The run whose slack lacks most; nothing where no end moves.
    pub fn worst_lack(&self) -> Found<(usize, Lack)> {
        if self.runs.iter().any(|run| run.answers.is_none()) {
            return Found::NotKnown(NOT_SOLVED);
        }
        let lacks = self
            .runs
            .iter()
            .enumerate()
            .filter_map(|(place, run)| Some((place, run.answers.as_ref()?.lack?)));
        let key = |lack: Lack| lack.needed_pct.map_or(f64::INFINITY, |pct| pct - lack.given_pct);
        Found::from_option(lacks.max_by(|a, b| key(a.1).total_cmp(&key(b.1))))
    }
}

fn run_figures(
    bay: &Bay,
    run: &Run,
    solution: &RoutingSolution,
    place: usize,
    needed: Option<&Option<NeededSlack>>,
) -> RunFigures {
    let end = |side: Side| (takes::end_name(bay, run, side), run.end(side).angle_deg);
    let hose = hose_kind(bay, &run.hose).map_or(&run.hose, |hose| &hose.name);
    let slack_pct = solution.run(place).map_or(0.0, RunSolution::slack_pct);
    let answers = solution.run(place).map(|solved| {
        let asked = Asked {
            solved,
            gap: solution.clearance.runs.get(place).and_then(TubeClearance::shown),
            lay: solution.lay_of(place),
            motion: solution.motion_of(place),
        };
        let lack = needed
            .copied()
            .flatten()
            .map(|needed| Lack { needed_pct: needed.pct, given_pct: slack_pct });
        asked.answers(taken(bay, run, solved), lack)
    });
    RunFigures {
        id: run.id.clone(),
        name: run.shown_name().to_owned(),
        hose: name_or(hose, &run.hose).to_owned(),
        dash: run.dash,
        ends: [end(Side::A), end(Side::B)],
        slack_pct,
        has_flow: is_asked(&run.service),
        answers,
    }
}

/// What is known of one run.
struct Asked<'a> {
    solved: &'a RunSolution,
    gap: Option<NearObstacle>,
    lay: Option<&'a RunLay>,
    motion: Option<(&'a RunMotion, &'a Positions)>,
}

impl Asked<'_> {
    fn answers(
        &self,
        (drop_bar, cold_start): (Found<f64>, Option<ColdStart>),
        lack: Option<Lack>,
    ) -> RunAnswers {
        let solved = self.solved;
        let spans = solved.spans.iter().map(|span| (span.length_mm(), span.from_mm));
        let longest = spans.max_by(|a, b| a.0.total_cmp(&b.0));
        let (position_radius, position_gap) = self.in_positions();
        RunAnswers {
            cut_mm: solved.cut_length_mm,
            radius: Found::from_option(self.drawn_radius()),
            installed_radius: self
                .installed()
                .map(|lay| lay.installed.tightest)
                .and_then_some(|tight| self.radius_at(tight.radius_mm, tight.at_mm, tight.point)),
            position_radius,
            gap: Found::from_option(self.gap).map(|near| gap(near, solved.on_bench_mm(near.at_mm))),
            installed_gap: self
                .installed()
                .map(|lay| lay.clearance.shown())
                .and_then_some(|near| gap(near, near.at_mm)),
            position_gap,
            drop_bar,
            cold_start,
            span: longest.map(|(length, from)| (length, solved.on_bench_mm(from))),
            lack,
        }
    }

    fn radius_at(&self, mm: f64, from_a_mm: f64, point: glam::DVec3) -> Against {
        let limit_mm = self.solved.radius_limit_mm;
        Against { mm, limit_mm, from_a_mm, point, obstacle: None, position: None }
    }

    fn drawn_radius(&self) -> Option<Against> {
        let bends = self.solved.bends();
        let tight = bends.iter().min_by(|a, b| a.radius_mm.total_cmp(&b.radius_mm))?;
        let from_a_mm = self.solved.on_bench_mm(tight.at_mm);
        Some(self.radius_at(tight.radius_mm, from_a_mm, tight.point))
    }

    /// How it lies, where that is known whole.
    fn installed(&self) -> Found<&RunLay> {
        match self.lay {
            None => Found::NotKnown(NOT_ASKED),
            Some(lay) if !lay.installed.is_whole() => Found::NotKnown(INSTALLED_NOT_FOUND),
            Some(lay) => Found::Known(lay),
        }
    }

    /// Radius and gap in the worst position.
    fn in_positions(&self) -> (Found<Against>, Found<Against>) {
        let Some((motion, positions)) = self.motion else {
            return (Found::NotKnown(NOT_ASKED), Found::NotKnown(NOT_ASKED));
        };
        if motion.positions.iter().any(|position| !position.is_whole) {
            return (Found::NotKnown(INSTALLED_NOT_FOUND), Found::NotKnown(INSTALLED_NOT_FOUND));
        }
        let named = |position: usize| {
            positions.all.get(position).filter(|_| position > 0).map(|p| p.name.clone())
        };
        let radius = motion.tightest().map(|(position, tight)| Against {
            position: named(position),
            ..self.radius_at(tight.radius_mm, tight.at_mm, tight.point)
        });
        let nearest = motion.shown_nearest();
        let near = nearest
            .map(|(position, near)| Against { position: named(position), ..gap(near, near.at_mm) });
        (Found::from_option(radius), Found::from_option(near))
    }
}

impl<T> Found<Option<T>> {
    /// What is there made into a figure.
    fn and_then_some<U>(self, make: impl FnOnce(T) -> U) -> Found<U> {
        match self {
            Self::Known(Some(value)) => Found::Known(make(value)),
            Self::Known(None) | Self::Nothing => Found::Nothing,
            Self::NotKnown(why) => Found::NotKnown(why),
        }
    }
}

fn gap(near: NearObstacle, from_a_mm: f64) -> Against {
    Against {
        mm: near.gap_mm,
        limit_mm: near.min_clearance_mm,
        from_a_mm,
        point: near.on_axis,
        obstacle: Some(near.obstacle),
        position: None,
    }
}

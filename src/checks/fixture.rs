//! A small bay for the tests of the rules; every figure in it is invented.

use std::sync::Arc;

use glam::DVec3;

use super::context::RunContext;
use crate::engine::clearance::TubeClearance;
use crate::engine::lay::RunLay;
use crate::engine::lengths::BenchStop;
use crate::engine::motion::RoutingMotion;
use crate::engine::{RoutingSolution, RunSolution, hose_of, solve_whole};
use crate::model::{
    Bay, BenchRecord, Construction, EndKind, EndSize, HoseKind, HoseSize, HoseSources, Mark,
    Nature, Obstacle, Port, Routing, Run, RunEnd, Shape, Source, Stock,
};

/// A bay with one run, solved.
pub(super) struct Fixture {
    pub(super) bay: Bay,
    pub(super) solved: RunSolution,
    pub(super) clearance: TubeClearance,
    pub(super) lay: Option<RunLay>,
    pub(super) motion: Option<RoutingMotion>,
    pub(super) bench_stop: Option<BenchStop>,
}

impl Fixture {
    /// A Z in the plan: 200 mm ahead from end A, 300 mm to the left, 200 mm ahead to end B, with two
    /// square bends at the hose's limit of 102 mm. Nothing is wrong with it.
    pub(super) fn z() -> Self {
        Self::edited(|_| {})
    }

    /// The same bay, changed before it is solved.
    pub(super) fn edited(edit: impl FnOnce(&mut Bay)) -> Self {
        let mut bay = bay();
        edit(&mut bay);
        let solution = solve_whole(&bay, &bay.routings[0]);
        let RoutingSolution { mut runs, mut clearance, lay, bench_stops, .. } = solution;
        let solved = Arc::unwrap_or_clone(runs.remove(0).unwrap());
        let clearance = clearance.runs.remove(0);
        let (lay, motion) = lay.map_or((None, None), |mut lay| {
            (lay.runs.remove(0).map(Arc::unwrap_or_clone), lay.motion)
        });
        let bench_stop = bench_stops.first().copied().flatten();
        Self { bay, solved, clearance, lay, motion, bench_stop }
    }

    /// From end A straight ahead to end B, `length` from seat to seat.
    pub(super) fn straight(length: f64, edit: impl FnOnce(&mut Bay)) -> Self {
        Self::edited(|bay| {
            bay.ports[1].at = DVec3::new(length, 0.0, 0.0);
            let run = &mut bay.routings[0].runs[0];
            run.from.straight_mm = Some(50.0);
            run.to.straight_mm = Some(50.0);
            edit(bay);
        })
    }

    pub(super) fn context(&self) -> RunContext<'_> {
        let run = &self.bay.routings[0].runs[0];
        let (hose, _) = hose_of(&self.bay, run).unwrap();
        let (solved, clearance) = (&self.solved, &self.clearance);
        let motion = self.motion.as_ref();
        let motion = motion.and_then(|all| Some((all.runs[0].as_ref()?, &all.positions)));
        let lay = self.lay.as_ref();
        RunContext {
            bay: &self.bay,
            run,
            solved,
            clearance,
            lay,
            motion,
            bench_stop: self.bench_stop,
            hose,
        }
    }
}

/// A plain obstacle.
pub(super) fn wall(shape: Shape) -> Obstacle {
    Obstacle {
        id: "wall".into(),
        name: String::new(),
        nature: Nature::Plain,
        min_clearance_mm: None,
        group: None,
        shape,
        locked: None,
        extra: Vec::new(),
    }
}

/// The only run of a bay.
pub(super) fn run(bay: &mut Bay) -> &mut Run {
    &mut bay.routings[0].runs[0]
}

/// Moves the middle of the Z: its bends stay square.
pub(super) fn straight_a(bay: &mut Bay, straight_mm: f64) {
    run(bay).from.straight_mm = Some(straight_mm);
    run(bay).to.straight_mm = Some(400.0 - straight_mm);
}

fn bay() -> Bay {
    Bay {
        ports: vec![
            port("a", DVec3::ZERO, DVec3::X),
            port("b", DVec3::new(442.0, 300.0, 0.0), DVec3::NEG_X),
        ],
        stock: Stock { hoses: vec![hose()], ends: vec![end()], ..Stock::default() },
        routings: vec![Routing { id: "one".into(), runs: vec![z_run()], ..Routing::default() }],
        ..Bay::default()
    }
}

fn port(id: &str, at: DVec3, toward: DVec3) -> Port {
    Port {
        id: id.into(),
        name: String::new(),
        at,
        toward,
        dash: Some(6),
        group: None,
        on: None,
        locked: None,
        extra: Vec::new(),
    }
}

fn z_run() -> Run {
    let end = |port: &str| RunEnd {
        port: port.into(),
        end: Some("e".into()),
        straight_mm: Some(200.0),
        ..RunEnd::default()
    };
    Run {
        id: "r".into(),
        name: String::new(),
        hose: "h".into(),
        dash: 6,
        from: end("a"),
        to: end("b"),
        via: Vec::new(),
        radius_mm: None,
        slack_pct: None,
        slack_mm: None,
        outside_mm: None,
        conductive_liner: None,
        dry_fit_mm: None,
        sleeves: Vec::new(),
        bench: BenchRecord::default(),
        service: crate::model::Service::default(),
        extra: Vec::new(),
    }
}

fn hose() -> HoseKind {
    HoseKind {
        id: "h".into(),
        name: "Test hose".into(),
        maker: None,
        construction: Construction::PtfeBraid,
        liner: None,
        conductive_liner: Some(true),
        temperature_c: Some([-54.0, 200.0]),
        length_change_pct: None,
        bend_to_centre: None,
        sizes: vec![HoseSize {
            dash: 6,
            bore_mm: Some(8.0),
            outside_mm: Some(12.0),
            bend_radius_mm: 96.0,
            max_pressure_bar: Some(100.0),
            burst_bar: Some(400.0),
            ..HoseSize::default()
        }],
        sources: HoseSources::all(Source::fixed(Mark::BayFile, "/stock/hoses/0")),
        extra: Vec::new(),
    }
}

fn end() -> EndKind {
    let size = |angle_deg: f64, along_mm: f64, across_mm: f64| EndSize {
        dash: 6,
        angle_deg,
        along_mm,
        across_mm,
        socket_mm: 24.0,
        max_pressure_bar: Some(120.0),
        ..EndSize::default()
    };
    let source = Source::fixed(Mark::BayFile, "/stock/ends/0");
    EndKind {
        id: "e".into(),
        name: "Test end".into(),
        maker: None,
        for_construction: Some(Construction::PtfeBraid),
        attachment: None,
        sizes: vec![size(0.0, 21.0, 0.0), size(90.0, 21.0, 25.0)],
        source_straight: source.clone(),
        source_elbow: source.clone(),
        source_socket: source,
        extra: Vec::new(),
    }
}

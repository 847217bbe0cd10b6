//! Small bays built in code: invented figures, selected so that closed forms are short.

use glam::DVec3;
use hosewright::engine::{self, RunSolution};
use hosewright::model::{
    Bay, BenchRecord, Clamp, Construction, Corner, HoseKind, HoseSize, HoseSources, Mark, Port,
    Routing, Run, RunEnd, Service, Source, Stock, Via,
};

/// Outside diameter of the test hose.
pub const OUTSIDE_MM: f64 = 12.0;
/// Its limit at the centre line: 94 to the inside and half the outside diameter.
pub const LIMIT_MM: f64 = 100.0;
/// Socket of the ends made by [`straight_end`].
pub const SOCKET_MM: f64 = 20.0;
/// From the exit to the first place where a bend may begin: socket and two diameters.
pub const STRAIGHT_MM: f64 = SOCKET_MM + 2.0 * OUTSIDE_MM;

/// A hose of one size, −6.
pub fn hose() -> HoseKind {
    HoseKind {
        id: "test-hose".into(),
        name: "Test hose".into(),
        maker: None,
        construction: Construction::PtfeBraid,
        liner: None,
        conductive_liner: Some(true),
        temperature_c: Some([-50.0, 200.0]),
        length_change_pct: Some([-4.0, 2.0]),
        bend_to_centre: None,
        sizes: vec![HoseSize {
            dash: 6,
            bore_mm: Some(8.0),
            outside_mm: Some(OUTSIDE_MM),
            bend_radius_mm: LIMIT_MM - OUTSIDE_MM / 2.0,
            max_pressure_bar: Some(100.0),
            burst_bar: Some(400.0),
            proof_bar: None,
            expansion_ml_per_m: None,
            expansion_at_bar: None,
            temperature_c: None,
            mass_kg_per_m: Some(0.2),
            price_per_m: Some(10.0),
            extra: vec![],
        }],
        sources: HoseSources::all(Source::fixed(Mark::BayFile, "test")),
        extra: vec![],
    }
}

/// A port.
pub fn port(id: &str, at: DVec3, toward: DVec3) -> Port {
    Port {
        id: id.into(),
        name: id.into(),
        at,
        toward,
        dash: Some(6),
        group: None,
        on: None,
        locked: None,
        extra: vec![],
    }
}

/// A straight end, measured, that adds nothing: the exit lies on the seat.
pub fn straight_end(port: &str, straight_mm: Option<f64>) -> RunEnd {
    elbow_end(port, straight_mm, 0.0, 0.0, (0.0, 0.0))
}

/// An end, measured, with the exit at `(along, across)`.
pub fn elbow_end(
    port: &str,
    straight_mm: Option<f64>,
    angle_deg: f64,
    clock_deg: f64,
    (along, across): (f64, f64),
) -> RunEnd {
    RunEnd {
        port: port.into(),
        end: None,
        angle_deg,
        clock_deg,
        straight_mm,
        along_mm: Some(along),
        across_mm: Some(across),
        socket_mm: Some(SOCKET_MM),
        extra: vec![],
    }
}

/// A run of the test hose without slack.
pub fn run(from: RunEnd, to: RunEnd, via: Vec<Via>) -> Run {
    Run {
        id: "r".into(),
        name: "r".into(),
        hose: "test-hose".into(),
        dash: 6,
        from,
        to,
        via,
        radius_mm: None,
        slack_pct: Some(0.0),
        slack_mm: None,
        outside_mm: None,
        conductive_liner: None,
        dry_fit_mm: None,
        sleeves: Vec::new(),
        bench: BenchRecord::default(),
        service: Service::default(),
        extra: vec![],
    }
}

/// A corner.
pub fn corner(x: f64, y: f64, z: f64) -> Via {
    Via::Corner(Corner { at: DVec3::new(x, y, z), radius_mm: None, extra: vec![] })
}

/// A clamp that grips so much to either side of its middle.
pub fn clamp(at: DVec3, along: DVec3, half_grip_mm: f64, straight_mm: Option<f64>) -> Via {
    Via::Clamp(Clamp { at, along, grip_mm: Some(2.0 * half_grip_mm), straight_mm, extra: vec![] })
}

/// A bay of one routing with these ports and this run.
pub fn bay(ports: Vec<Port>, run: Run) -> Bay {
    Bay {
        title: "test".into(),
        ports,
        stock: Stock { hoses: vec![hose()], ..Stock::default() },
        routings: vec![Routing {
            id: "only".into(),
            name: "Only".into(),
            runs: vec![run],
            ..Routing::default()
        }],
        ..Bay::default()
    }
}

/// The only run of a bay, solved.
pub fn solved(bay: &Bay) -> RunSolution {
    engine::solve(bay).routings[0].run(0).expect("the run resolves").clone()
}

/// Two straight ends at `a` and `b`, looking along `ta` and `tb`, solved.
pub fn between(
    (a, ta, straight_a): (DVec3, DVec3, Option<f64>),
    (b, tb, straight_b): (DVec3, DVec3, Option<f64>),
    via: Vec<Via>,
) -> RunSolution {
    solved(&bay(
        vec![port("a", a, ta), port("b", b, tb)],
        run(straight_end("a", straight_a), straight_end("b", straight_b), via),
    ))
}

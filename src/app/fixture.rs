//! A small bay for tests: two hoses that cross over a hot box and a shaft. Invented.

use glam::{DVec3, dvec3};

use crate::model::{
    Bay, BenchRecord, Clamp, Construction, Corner, HoseKind, HoseSize, HoseSources, Mark, Nature,
    Obstacle, Port, Routing, Run, RunEnd, Service, Shape, Source, Stock, Via,
};

fn port(id: &str, at: DVec3, toward: DVec3) -> Port {
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

fn end(port: &str) -> RunEnd {
    RunEnd {
        port: port.into(),
        along_mm: Some(24.0),
        across_mm: Some(0.0),
        socket_mm: Some(24.0),
        ..RunEnd::default()
    }
}

fn run(id: &str, name: &str, from: &str, to: &str, via: Vec<Via>) -> Run {
    Run {
        id: id.into(),
        name: name.into(),
        hose: "test-hose".into(),
        dash: 6,
        from: end(from),
        to: end(to),
        via,
        radius_mm: None,
        slack_pct: None,
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

fn hose() -> HoseKind {
    HoseKind {
        id: "test-hose".into(),
        name: "Test hose".into(),
        maker: None,
        construction: Construction::PtfeBraid,
        liner: None,
        conductive_liner: Some(true),
        temperature_c: None,
        length_change_pct: None,
        bend_to_centre: None,
        sizes: vec![HoseSize {
            dash: 6,
            bore_mm: Some(7.9),
            outside_mm: Some(12.7),
            bend_radius_mm: 102.0,
            ..HoseSize::default()
        }],
        sources: HoseSources::all(Source::fixed(Mark::BayFile, "test")),
        extra: vec![],
    }
}

/// The bay.
pub(super) fn bay() -> Bay {
    let corner = |at| Via::Corner(Corner { at, ..Corner::default() });
    let clamp = |at, along| Via::Clamp(Clamp { at, along, ..Clamp::default() });
    let obstacle = |id: &str, nature, shape| Obstacle {
        id: id.into(),
        name: id.into(),
        nature,
        min_clearance_mm: None,
        group: None,
        shape,
        locked: None,
        extra: vec![],
    };
    Bay {
        title: "Bench bay".into(),
        ports: vec![
            port("pump", dvec3(0.0, 0.0, 0.0), DVec3::X),
            port("rail", dvec3(1000.0, 200.0, 150.0), -DVec3::X),
            port("tank", dvec3(0.0, 250.0, 80.0), DVec3::X),
            port("cooler", dvec3(1000.0, -100.0, 60.0), -DVec3::X),
        ],
        obstacles: vec![
            obstacle(
                "manifold",
                Nature::Hot,
                Shape::Box { min: dvec3(300.0, -150.0, -50.0), max: dvec3(600.0, -60.0, 60.0) },
            ),
            obstacle(
                "shaft",
                Nature::Moving,
                Shape::Cylinder {
                    from: dvec3(350.0, 300.0, -40.0),
                    to: dvec3(700.0, 320.0, 10.0),
                    radius: 25.0,
                },
            ),
        ],
        stock: Stock { hoses: vec![hose()], ..Stock::default() },
        routings: vec![Routing {
            id: "over".into(),
            name: "Over the top".into(),
            runs: vec![
                run(
                    "feed",
                    "Fuel feed",
                    "pump",
                    "rail",
                    vec![
                        corner(dvec3(350.0, 20.0, 120.0)),
                        clamp(dvec3(650.0, 160.0, 150.0), DVec3::X),
                    ],
                ),
                run(
                    "return",
                    "Fuel return",
                    "tank",
                    "cooler",
                    vec![corner(dvec3(500.0, 100.0, 80.0))],
                ),
            ],
            ..Routing::default()
        }],
        ..Bay::default()
    }
}

/// The demo car with faults on purpose, read as the program reads it.
pub(in crate::app) fn car() -> Bay {
    use crate::document::file::{FolderMeshes, read};
    let text = include_bytes!("../../demo_projects/faults-on-purpose.bay.json");
    read(text, &FolderMeshes::beside(std::path::Path::new("x"))).expect("the demo bay reads")
}

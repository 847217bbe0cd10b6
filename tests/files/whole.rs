//! What is read from a sound file, and what is let through though it is odd.

use glam::DVec3;
use hosewright::document::file::{load, read};
use hosewright::model::{
    Bay, Construction, Fluid, Mark, Motion, Nature, Shape, TestMethod, TestResult, Via,
    unknown_keys,
};
use hosewright::units::LengthUnit;

use crate::hostile::NoMeshes;
use crate::round_trip::EVERY_KEY;

fn bay(text: &str) -> Bay {
    read(text.as_bytes(), &NoMeshes).unwrap()
}

#[test]
fn groups_ports_and_obstacles_are_read() {
    let bay = bay(EVERY_KEY);
    assert_eq!(bay.title, "Every key");
    assert_eq!(bay.notes, "Invented. First line\nsecond line");
    assert_eq!(bay.show_units, LengthUnit::Inch);
    let Motion::Pivot { about, axis, from_deg, to_deg, .. } = &bay.groups[0].moves[0] else {
        panic!("{:?}", bay.groups[0])
    };
    assert_eq!((*about, *axis), (DVec3::new(0.0, 0.0, 100.0), DVec3::X));
    assert_eq!((*from_deg, *to_deg), (-3.0, 3.5));
    let Motion::Slide { from, to, .. } = &bay.groups[0].moves[1] else { panic!("no slide") };
    assert_eq!((from.z, to.z), (-4.0, 6.0));
    let port = bay.port("pump-out").unwrap();
    assert_eq!((port.at, port.toward), (DVec3::new(1.0, 2.5, -3.0), DVec3::Z * 2.0));
    assert_eq!((port.dash, port.group.as_deref()), (Some(6), Some("engine")));
    assert_eq!(port.on.as_deref(), Some("pump"));
    let bare = bay.port("filter-in").unwrap();
    assert_eq!((bare.name.as_str(), bare.dash, &bare.group, &bare.on), ("", None, &None, &None));
    let natures: Vec<Nature> = bay.obstacles.iter().map(|obstacle| obstacle.nature).collect();
    assert_eq!(natures, [Nature::Moving, Nature::Hot, Nature::Sharp]);
    assert_eq!(bay.obstacles[1].min_clearance_mm, None);
    let Shape::Cylinder { from, to, radius } = bay.obstacles[1].shape else {
        panic!("no cylinder")
    };
    assert_eq!((from.x, to.x, radius), (100.0, 400.0, 40.0));
}

#[test]
fn the_stock_is_read_and_says_where_it_is_from() {
    let bay = bay(EVERY_KEY);
    let hose = &bay.stock.hoses[0];
    assert_eq!(hose.construction, Construction::PtfeBraid);
    assert_eq!((hose.conductive_liner, hose.bend_to_centre), (Some(true), Some(false)));
    assert_eq!(hose.length_change_pct, Some([-4.0, 2.0]));
    let size = hose.size(6).unwrap();
    assert_eq!((size.bore_mm, size.outside_mm), (Some(7.9), Some(12.7)));
    assert_eq!((size.bend_radius_mm, size.proof_bar), (102.0, Some(206.0)));
    assert_eq!(hose.sources.outside.mark, Mark::BayFile);
    let end = &bay.stock.ends[0];
    assert_eq!(end.for_construction, Some(Construction::PtfeBraid));
    let turned_back = end.size(6, 180.0).unwrap();
    assert_eq!((turned_back.along_mm, turned_back.across_mm), (-4.0, 38.0));
    assert_eq!(end.source_elbow.mark, Mark::BayFile);
    let length = &bay.stock.lengths[0];
    assert_eq!((length.length_mm, length.count, length.price), (3000.0, Some(2), Some(33.0)));
}

#[test]
fn routings_and_runs_are_read() {
    let bay = bay(EVERY_KEY);
    let routing = &bay.routings[0];
    assert_eq!((routing.id.as_str(), routing.hose_clearance_mm), ("over", Some(8.0)));
    let run = &routing.runs[0];
    assert_eq!((run.hose.as_str(), run.dash, run.radius_mm), ("h", 6, Some(120.0)));
    assert_eq!((run.slack_pct, run.outside_mm), (Some(5.5), Some(12.5)));
    assert_eq!(run.dry_fit_mm, Some(742.0));
    assert_eq!((run.bench.cut_mm, run.bench.final_mm), (Some(745.0), Some(790.5)));
    assert_eq!((run.bench.lot.as_str(), run.bench.leak_tests.len()), ("lot 12", 2));
    let test = run.bench.last_test().unwrap();
    assert_eq!((test.method, test.result), (TestMethod::Air, Some(TestResult::Pass)));
    assert_eq!((test.before.bar, test.after.temperature_c), (Some(6.9), Some(19.0)));
    assert_eq!((test.hold_s, test.leak_seen), (Some(120.0), Some(false)));
    assert_eq!(run.sleeves.len(), 2);
    let sleeve = &run.sleeves[0];
    assert_eq!((sleeve.from_mm, sleeve.to_mm), (Some(24.0), Some(130.5)));
    assert_eq!((sleeve.temperature_c, sleeve.name.as_str()), (Some(260.0), "Fire sleeve"));
    assert_eq!(sleeve.rated_for, [Nature::Hot, Nature::Sharp]);
    assert_eq!(run.sleeves[1].range_mm(700.0), (0.0, 700.0));
    assert!(run.from.is_measured() && !run.to.is_measured());
    assert_eq!((run.from.angle_deg, run.from.clock_deg), (90.0, -180.0));
    assert_eq!((run.from.straight_mm, run.to.straight_mm), (Some(70.0), None));
    let Via::Corner(corner) = &run.via[0] else { panic!("no corner") };
    assert_eq!(corner.radius_mm, Some(150.0));
    let Via::Clamp(clamp) = &run.via[1] else { panic!("no clamp") };
    assert_eq!((clamp.grip_mm, clamp.straight_mm), (Some(20.0), Some(40.0)));
    assert_eq!(run.service.fluid, Some(Fluid::Petrol));
    assert_eq!((run.service.temperature_c, run.service.flexing), (Some(60.0), Some(false)));
}

#[test]
fn the_least_a_bay_can_be() {
    let bay = bay(r#"{"routings":[{"id":"o"}],"version":1.0,"format":"hosewright-bay"}"#);
    assert_eq!((bay.title.as_str(), bay.show_units), ("", LengthUnit::Mm));
    assert!(bay.routings[0].runs.is_empty() && bay.ports.is_empty() && bay.extra.is_empty());
}

#[test]
fn hoses_and_ends_of_the_catalogue_need_no_stock() {
    let text = r#"{"format":"hosewright-bay","version":1,
        "ports":[{"id":"a","at":[0,0,0],"toward":[1,0,0]},{"id":"b","at":[400,0,0],"toward":[-1,0,0]}],
        "stock":{"lengths":[{"hose":"ptfe-100r14","dash":6,"length":3000}]},
        "routings":[{"id":"o","runs":[{"id":"r","hose":"ptfe-100r14","dash":6,
            "from":{"port":"a","end":"flare-ptfe"},"to":{"port":"b","end":"flare-ptfe","angle_deg":90}}]}]}"#;
    assert_eq!(bay(text).routings[0].runs.len(), 1);
}

/// Anything else that can be drawn is drawn, and found fault with.
#[test]
fn what_is_odd_but_can_be_drawn_is_read() {
    let odd = [
        (r#""min": [-20, -20, -60]"#, r#""min": [20, 20, -5]"#),
        (r#""radius": 150"#, r#""radius": 0"#),
        (r#""straight": 70"#, r#""straight": 0"#),
        (r#""slack_pct": 5.5"#, r#""slack_pct": 0"#),
        (r#""grip": 20"#, r#""grip": 0"#),
        (r#""along": [1, 0, 0]"#, r#""along": [1e-12, 0, 0]"#),
        (r#""dash": 6,"#, r#""dash": 6.0,"#),
        (r#""petrol""#, r#""own brew""#),
        (r#""clock_deg": -180"#, r#""clock_deg": 99999"#),
        (r#""pressure_bar": 4"#, r#""pressure_bar": -0.9"#),
        (r#""at": [640, 0, 150]"#, r#""at": [1, 2.5, -3]"#),
        (r#""count": 2"#, r#""count": 0"#),
        (r#""to": [0, 0, 6]"#, r#""to": [0, 0, -4]"#),
    ];
    let sound = bay(EVERY_KEY);
    for (usual, odd) in odd {
        assert!(EVERY_KEY.contains(usual), "{usual}");
        let read = bay(&EVERY_KEY.replace(usual, odd));
        let same = odd == r#""dash": 6.0,"#;
        assert_eq!(read == sound, same, "{odd}");
    }
}

#[test]
fn runs_of_two_routings_may_have_one_id() {
    let second = EVERY_KEY.replace("\"id\": \"over\"", "\"id\": \"under\"");
    let routings = |text: &str| {
        let start = text.find("\"routings\": [").unwrap() + "\"routings\": [".len();
        text[start..text.find("\n  ],\n  \"x-top\"").unwrap()].to_owned()
    };
    let both = format!("{},{}", routings(EVERY_KEY), routings(&second));
    let bay = bay(&EVERY_KEY.replace(&routings(EVERY_KEY), &both));
    assert_eq!(bay.routings.len(), 2);
    assert_eq!(bay.routings[0].runs, bay.routings[1].runs);
}

#[test]
fn the_demo_bays_hold_no_unknown_key_and_saving_them_changes_no_byte() {
    let folder = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("demo_projects");
    let files = std::fs::read_dir(folder).unwrap().map(|entry| entry.unwrap().path());
    let bays: Vec<_> = files.filter(|f| f.to_string_lossy().ends_with(".bay.json")).collect();
    assert!(bays.len() >= 2);
    for file in bays {
        let bay = load(&file).unwrap_or_else(|refused| panic!("{refused}"));
        assert_eq!(unknown_keys(&bay), [] as [String; 0], "{}", file.display());
        let text = std::fs::read_to_string(&file).unwrap();
        assert!(hosewright::document::file::write(&bay).unwrap() == text, "{}", file.display());
    }
}

#[test]
fn meshes_beside_the_bay_are_read() {
    let folder = tempfile::tempdir().unwrap();
    std::fs::create_dir_all(folder.path().join("bays")).unwrap();
    let stl = "solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 9.5 0 0\nvertex 0 2 0\nendloop\nendfacet\nendsolid\n";
    std::fs::write(folder.path().join("part.stl"), stl).unwrap();
    let text = r#"{"format":"hosewright-bay","version":1,"routings":[{"id":"o"}],"obstacles":[
        {"id":"a","kind":"mesh","file":"../part.stl"},{"id":"b","kind":"mesh","file":"../part.stl"}]}"#;
    let path = folder.path().join("bays/a.bay.json");
    std::fs::write(&path, text).unwrap();
    let bay = load(&path).unwrap();
    let Shape::Mesh { file, mesh, .. } = &bay.obstacles[0].shape else { panic!("no mesh") };
    assert_eq!(file, "../part.stl");
    assert_eq!(mesh.bounds(), (DVec3::ZERO, DVec3::new(9.5, 2.0, 0.0)));
    let Shape::Mesh { mesh: again, .. } = &bay.obstacles[1].shape else { panic!("no mesh") };
    assert!(mesh.shares(again), "read once");
}

#[test]
fn a_mesh_lies_where_and_as_large_as_it_is_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("a.bay.json");
    let text = "solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 2 0 0\nvertex 0 1 0\n\
        endloop\nendfacet\nendsolid a\n";
    std::fs::write(folder.path().join("a.stl"), text).unwrap();
    let bay = r#"{"format":"hosewright-bay","version":1,"obstacles":[{"id":"s","kind":"mesh",
        "file":"a.stl","scale":25.4,"at":[10,0,-5]}],"routings":[{"id":"o"}]}"#;
    std::fs::write(&path, bay).unwrap();
    let bay = hosewright::document::file::load(&path).unwrap();
    let Shape::Mesh { mesh, .. } = &bay.obstacles[0].shape else { panic!("no mesh") };
    let (lo, hi) = mesh.bounds();
    assert!((lo - glam::dvec3(10.0, 0.0, -5.0)).length() < 1e-9);
    assert!((hi - glam::dvec3(60.8, 25.4, -5.0)).length() < 1e-9);
    hosewright::document::file::save(&path, &bay).unwrap();
    assert_eq!(hosewright::document::file::load(&path).unwrap(), bay);
}

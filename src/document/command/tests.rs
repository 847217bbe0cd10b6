use glam::{DVec2, DVec3, dvec3};

use super::*;
use crate::document::file::{FolderMeshes, read};
use crate::engine::solve;
use crate::model::{BackgroundEntry, Content, Corner, Motion, Plane, Shape};

fn car() -> Bay {
    let text = include_bytes!("../../../demo_projects/faults-on-purpose.bay.json");
    read(text, &FolderMeshes::beside(std::path::Path::new("x"))).expect("the demo bay reads")
}

fn done(bay: &Bay, command: &Command) -> Bay {
    let mut after = bay.clone();
    command.apply(&mut after).unwrap_or_else(|error| panic!("{command:?}: {error}"));
    after
}

fn run_item(bay: &Bay, run: usize) -> Item {
    let routing = &bay.routings[0];
    Item::Run { routing: routing.id.clone(), run: routing.runs[run].id.clone() }
}

fn lengths(bay: &Bay) -> Vec<f64> {
    solve(bay).routings[0].runs.iter().flatten().map(|run| run.cut_length_mm).collect()
}

#[test]
fn a_mirrored_copy_of_a_hose_is_as_long_and_clocked_the_other_way() {
    let bay = car();
    let count = bay.routings[0].runs.len();
    for run in 0..count {
        let items = vec![run_item(&bay, run)];
        let after = done(&bay, &Command::Mirror { items, copy: true });
        assert_eq!(after.routings[0].runs.len(), count + 1);
        assert_eq!(after.ports.len(), bay.ports.len() + 2);
        let (old, new) = (lengths(&bay), lengths(&after));
        assert!((old[run] - new[count]).abs() < 1e-6, "run {run}");
        let clock = |bay: &Bay, run: usize| {
            solve(bay).routings[0].run(run).and_then(|run| run.clock_between_deg)
        };
        if let (Some(old), Some(new)) = (clock(&bay, run), clock(&after, count)) {
            let apart = (old + new).rem_euclid(360.0);
            assert!(apart.min(360.0 - apart) < 1e-6, "run {run}: {old} and {new}");
        }
    }
}

#[test]
fn mirroring_twice_changes_nothing() {
    let bay = car();
    let mut items: Vec<Item> = bay.ports.iter().map(|p| Item::Port(p.id.clone())).collect();
    items.extend(bay.groups.iter().map(|b| Item::MovingGroup(b.id.clone())));
    let flat = bay.obstacles.iter().filter(|s| !matches!(s.shape, Shape::Mesh { .. }));
    items.extend(flat.map(|s| Item::Obstacle(s.id.clone())));
    items.extend((0..bay.routings[0].runs.len()).map(|run| run_item(&bay, run)));
    let mirror = Command::Mirror { items, copy: false };
    let once = done(&bay, &mirror);
    assert_ne!(once, bay);
    for (old, new) in lengths(&bay).iter().zip(lengths(&once)) {
        assert!((old - new).abs() < 1e-6);
    }
    assert_eq!(done(&once, &mirror), bay);
}

#[test]
fn a_pivoting_group_mirrored_pivots_the_other_way() {
    let mut bay = car();
    bay.groups = vec![MovingGroup {
        id: "engine".into(),
        moves: vec![Motion::Pivot {
            about: dvec3(1.0, 2.0, 3.0),
            axis: DVec3::X,
            from_deg: -3.0,
            to_deg: 2.0,
            extra: vec![],
        }],
        ..MovingGroup::default()
    }];
    let items = vec![Item::MovingGroup("engine".into())];
    let after = done(&bay, &Command::Mirror { items, copy: false });
    let Motion::Pivot { about, axis, from_deg, to_deg, .. } = &after.groups[0].moves[0] else {
        panic!("it pivots");
    };
    assert_eq!((*about, *axis), (dvec3(1.0, -2.0, 3.0), DVec3::X));
    assert_eq!((*from_deg, *to_deg), (3.0, -2.0));
}

#[test]
fn a_port_takes_its_hoses_along_when_it_goes() {
    let bay = car();
    let port = bay.routings[0].runs[0].from.port.clone();
    let after = done(&bay, &Command::Delete(vec![Item::Port(port.clone())]));
    assert!(after.port(&port).is_none());
    let uses = |run: &Run| run.from.port == port || run.to.port == port;
    assert!(bay.routings.iter().flat_map(|o| &o.runs).any(uses));
    assert!(!after.routings.iter().flat_map(|o| &o.runs).any(uses));
}

#[test]
fn what_rides_on_a_group_stays_when_the_group_goes() {
    let bay = car();
    let group = bay.groups[0].id.clone();
    let after = done(&bay, &Command::Delete(vec![Item::MovingGroup(group)]));
    assert_eq!(after.ports.len(), bay.ports.len());
    assert_eq!(after.obstacles.len(), bay.obstacles.len());
}

#[test]
fn corners_taken_out_together_are_the_right_ones() {
    let bay = car();
    let routing = &bay.routings[0];
    let run = routing.runs.iter().find(|run| run.via.len() >= 3).expect("a run of three steps");
    let item = |via| Item::Via { routing: routing.id.clone(), run: run.id.clone(), via };
    let after = done(&bay, &Command::Delete(vec![item(0), item(2)]));
    let left =
        after.routings[0].runs.iter().find(|other| other.id == run.id).map(|r| r.via.clone());
    let mut expected = run.via.clone();
    expected.remove(2);
    expected.remove(0);
    assert_eq!(left, Some(expected));
}

#[test]
fn a_new_id_is_followed_by_what_refers_to_it() {
    let bay = car();
    let id = bay.routings[0].runs[0].from.port.clone();
    let port = Port { id: "somewhere-else".into(), ..bay.port(&id).unwrap().clone() };
    let set = Command::SetPort { id, port: Box::new(port), label: "Rename port" };
    let after = done(&bay, &set);
    assert_eq!(after.routings[0].runs[0].from.port, "somewhere-else");
    assert_eq!(lengths(&bay), lengths(&after));
}

#[test]
fn what_the_file_would_refuse_is_refused_with_its_words() {
    let bay = car();
    let port = bay.ports[0].clone();
    let refused = |command: &Command| command.apply(&mut bay.clone()).unwrap_err().to_string();
    let twice = refused(&Command::AddPort(Box::new(port.clone())));
    assert!(twice.contains(&port.id), "{twice}");
    let flat = Port { toward: DVec3::ZERO, ..port.clone() };
    let set = Command::SetPort { id: port.id.clone(), port: Box::new(flat), label: "Turn port" };
    assert!(refused(&set).contains("toward"), "{}", refused(&set));
    let lost = Port { on: Some("no-such-obstacle".into()), ..port.clone() };
    let set = Command::SetPort { id: port.id, port: Box::new(lost), label: "Change port" };
    assert!(refused(&set).contains("no-such-obstacle"));
}

#[test]
fn routings_are_copied_behind_themselves_and_the_last_stays() {
    let bay = car();
    let first = bay.routings[0].id.clone();
    let copy = Command::DuplicateRouting { routing: first.clone(), name: "Another".into() };
    let after = done(&bay, &copy);
    assert_eq!(after.routings.len(), bay.routings.len() + 1);
    assert_eq!(after.routings[1].name, "Another");
    assert_eq!(after.routings[1].runs, after.routings[0].runs);
    let moved = done(&after, &Command::MoveRouting { routing: first.clone(), to: 99 });
    assert_eq!(moved.routings.last().map(|o| o.id.as_str()), Some(first.as_str()));
    let mut bay = bay;
    while bay.routings.len() > 1 {
        bay = done(&bay, &Command::DeleteRouting(bay.routings[0].id.clone()));
    }
    let last = Command::DeleteRouting(bay.routings[0].id.clone());
    assert_eq!(last.apply(&mut bay.clone()), Err(CommandError::LastRouting));
}

#[test]
fn backgrounds_are_raised_and_lowered_and_no_further_than_there_are() {
    let mut bay = car();
    let photo = |id: &str| Background {
        id: id.to_owned(),
        name: String::new(),
        plane: Plane::Plan,
        file: "bay.jpg".to_owned(),
        opacity: 1.0,
        locked: false,
        hidden: false,
        origin: DVec2::ZERO,
        rotation_deg: 0.0,
        content: Content::Photo { size_px: DVec2::ONE, mm_per_pixel: 1.0 },
        extra: Vec::new(),
    };
    bay.backgrounds.clear();
    for id in ["a", "b", "c"] {
        bay = done(&bay, &Command::AddBackground(Box::new(photo(id))));
    }
    let order = |bay: &Bay| -> String {
        bay.backgrounds.iter().filter_map(BackgroundEntry::known).map(|u| u.id.as_str()).collect()
    };
    let put = |id: &str, to| done(&bay, &Command::MoveBackground { id: id.to_owned(), to });
    assert_eq!(order(&put("a", 1)), "bac");
    assert_eq!(order(&put("c", 0)), "cab");
    assert_eq!(order(&put("b", 99)), "acb");
    let lost = Command::MoveBackground { id: "d".to_owned(), to: 0 };
    assert_eq!(lost.apply(&mut bay.clone()), Err(CommandError::NoBackground("d".to_owned())));
}

#[test]
fn a_mesh_is_moved_and_not_mirrored() {
    let mut bay = car();
    let (scale, at) = (25.4, DVec3::new(1.0, 2.0, 3.0));
    let raw = crate::model::Mesh::new(vec![DVec3::ZERO, DVec3::X], Vec::new());
    let mesh = std::sync::Arc::new(raw.placed(scale, at));
    bay.obstacles[0].shape = Shape::Mesh { file: "x.stl".into(), scale, at, mesh };
    let items = vec![Item::Obstacle(bay.obstacles[0].id.clone())];
    let moved = done(&bay, &Command::Move { items: items.clone(), by: DVec3::Y });
    let Shape::Mesh { at, mesh, .. } = &moved.obstacles[0].shape else { panic!("no mesh") };
    assert_eq!(*at, DVec3::new(1.0, 3.0, 3.0));
    assert_eq!(mesh.vertices().collect::<Vec<_>>(), [*at, DVec3::new(26.4, 3.0, 3.0)]);
    let mirrored = Command::Mirror { items, copy: false };
    assert!(matches!(mirrored.apply(&mut bay.clone()), Err(CommandError::Mesh(_))));
}

#[test]
fn a_corner_pulled_out_needs_no_look_at_the_file_and_is_none_that_it_would_refuse() {
    let bay = car();
    for routing in &bay.routings {
        for run in &routing.runs {
            for at in 0..=run.via.len() {
                let corner = |at: DVec3| Via::Corner(Corner { at, ..Corner::default() });
                let add = |place: DVec3| Command::AddVia {
                    routing: routing.id.clone(),
                    run: run.id.clone(),
                    at,
                    via: corner(place),
                };
                let pulled = done(&bay, &add(DVec3::new(1.0, -2.0, 1e5)));
                assert_eq!(faults_of(&pulled), []);
                let lost = add(DVec3::new(f64::NAN, 0.0, 0.0)).apply(&mut bay.clone());
                assert_eq!(lost, Err(CommandError::NotFinite));
            }
        }
    }
}

#[test]
fn a_port_goes_where_the_obstacle_goes_that_it_is_screwed_into() {
    let bay = car();
    let on = |bay: &Bay, id: &str| bay.port(id).map_or(DVec3::NAN, |port| port.at);
    let (cooler, by) = (Item::Obstacle("cooler".into()), dvec3(10.0, -4.0, 3.0));
    let with_one = vec![cooler.clone(), Item::Port("cooler-in".into())];
    for items in [vec![cooler], with_one] {
        let moved = done(&bay, &Command::Move { items, by });
        for id in ["cooler-in", "cooler-out"] {
            assert_eq!(on(&moved, id), on(&bay, id) + by, "{id}, once");
        }
        assert_eq!(on(&moved, "filter-in"), on(&bay, "filter-in"));
    }
    // By its fields too; one that only grows leaves them.
    let mut obstacle = Box::new(bay.obstacle("cooler").expect("it has one").clone());
    let Shape::Box { min, max } = &mut obstacle.shape else { panic!("a box") };
    (*min, *max) = (*min + by, *max + by);
    let set = |obstacle| Command::SetObstacle { id: "cooler".into(), obstacle, label: "" };
    let moved = done(&bay, &set(obstacle.clone()));
    assert_eq!(on(&moved, "cooler-out"), on(&bay, "cooler-out") + by);
    let Shape::Box { max, .. } = &mut obstacle.shape else { panic!("a box") };
    max.z += 20.0;
    let larger = done(&moved, &set(obstacle));
    assert_eq!(on(&larger, "cooler-out"), on(&moved, "cooler-out"));
}

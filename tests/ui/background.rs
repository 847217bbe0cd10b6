//! Photos and outlines under a view, and meshes as obstacles.

use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::time::Duration;

use eframe::egui::{self, Key, Pos2, pos2, vec2};
use egui_kittest::kittest::{NodeT as _, Queryable as _};
use glam::{DVec2, DVec3, dvec2};
use hosewright::app::canvas::camera::View;
use hosewright::app::files::Reply;
use hosewright::document::file;
use hosewright::model::{Background, Content, Plane, Shape};

use crate::world::World;

#[derive(Debug)]
struct Dropped(PathBuf);

impl egui::DroppedFile for Dropped {
    fn path(&self) -> &Path {
        &self.0
    }

    fn bytes(&self) -> Result<Vec<u8>, String> {
        std::fs::read(&self.0).map_err(|error| error.to_string())
    }
}

/// A checked picture, 400 by 300.
fn picture(path: &Path) {
    let checked = image::RgbImage::from_fn(400, 300, |x, y| {
        image::Rgb([if (x / 50 + y / 50) % 2 == 0 { 230 } else { 60 }; 3])
    });
    std::fs::create_dir_all(path.parent().unwrap()).unwrap();
    checked.save(path).unwrap();
}

/// Frames until every file has been read.
fn settle(world: &mut World) {
    for _ in 0..500 {
        world.window.run();
        if !world.app().is_reading() {
            world.window.run();
            return;
        }
        std::thread::sleep(Duration::from_millis(10));
    }
    panic!("the files are still being read");
}

fn drop_at(world: &mut World, path: &Path, at: Pos2) {
    world.window.hover_at(at);
    world.window.run();
    let file = Arc::new(Dropped(path.to_owned()));
    world.window.input_mut().dropped_files.push(file);
    settle(world);
}

fn on_screen(world: &World, view: View, mm: DVec2) -> Pos2 {
    let canvas = world.app().canvas();
    let p = canvas.cameras.of(view).to_screen(canvas.areas[view.index()], mm);
    pos2(p.x as f32, p.y as f32)
}

fn click_at(world: &mut World, at: Pos2) {
    world.window.drag_at(at);
    world.window.drop_at(at);
    world.window.run();
}

fn middle_of(world: &World, view: View) -> Pos2 {
    let centre = world.app().canvas().areas[view.index()].centre();
    pos2(centre.x as f32, centre.y as f32)
}

fn only(world: &World) -> &Background {
    let all = &world.bay().backgrounds;
    assert_eq!(all.len(), 1);
    all[0].known().expect("a kind that is known")
}

/// A world with a photo dropped on the side view.
fn with_photo() -> World {
    let mut world = World::with_car();
    let path = world.in_folder("photos/side.png");
    picture(&path);
    let at = middle_of(&world, View::Side);
    drop_at(&mut world, &path, at);
    world
}

#[test]
fn a_dropped_photo_is_under_the_view_it_was_dropped_on() {
    let world = with_photo();
    let photo = only(&world);
    assert_eq!((photo.plane, photo.file.as_str()), (Plane::Side, "photos/side.png"));
    assert_eq!(photo.size_px(), Some(dvec2(400.0, 300.0)));
    let centre = photo.map().unwrap().apply(dvec2(200.0, 150.0)).unwrap();
    let seen = on_screen(&world, View::Side, centre);
    assert!(seen.distance(middle_of(&world, View::Side)) < 1.0);
    assert_eq!(world.app().missing_background(&photo.id), None);
    assert!(world.has_containing("side.png is under the side view"));
}

#[test]
fn its_scale_is_set_from_two_points_and_can_be_taken_back() {
    let mut world = with_photo();
    let before = only(&world).clone();
    world.click("Set scale from two points\u{2026}");
    assert!(world.has("Click the first of two points a known distance apart"));
    let (a, b) = (dvec2(100.0, 150.0), dvec2(300.0, 150.0));
    let map = before.map().unwrap();
    let [p, q] = [a, b].map(|px| on_screen(&world, View::Side, map.apply(px).unwrap()));
    click_at(&mut world, p);
    assert!(world.has("Click the second point"));
    click_at(&mut world, q);
    world.window.get_by_label("Distance").type_text("2 ft");
    world.press(Key::Enter);
    let after = only(&world);
    let map = after.map().unwrap();
    let distance = map.apply(a).unwrap().distance(map.apply(b).unwrap());
    assert!((distance - 609.6).abs() < 1.0, "{distance}");
    assert!(world.has_containing("Undo") && world.app().document().unwrap().is_changed());
    world.press_ctrl(Key::Z);
    assert_eq!(only(&world), &before);
    world.press_ctrl(Key::Z);
    assert!(world.bay().backgrounds.is_empty());
    world.press_ctrl(Key::Y);
    assert_eq!(only(&world), &before);
}

#[test]
fn a_distance_that_is_none_is_refused_beside_the_field() {
    let mut world = with_photo();
    let before = only(&world).clone();
    world.click("Set scale from two points\u{2026}");
    let middle = middle_of(&world, View::Side);
    click_at(&mut world, middle);
    click_at(&mut world, middle + vec2(60.0, 0.0));
    world.window.get_by_label("Distance").type_text("two feet");
    world.click("Set scale");
    assert!(world.has("Cancel"), "the question stays open");
    assert_eq!(only(&world), &before);
    world.press(Key::Escape);
    world.press(Key::Escape);
    assert!(!world.has("Distance"));
    assert_eq!(only(&world), &before);
}

#[test]
fn a_photo_is_straightened_from_four_corners() {
    let mut world = with_photo();
    let map = only(&world).map().unwrap();
    world.click("Straighten from four corners\u{2026}");
    let corners = [(60.0, 240.0), (340.0, 240.0), (290.0, 60.0), (110.0, 60.0)].map(DVec2::from);
    for corner in corners {
        let at = on_screen(&world, View::Side, map.apply(corner).unwrap());
        click_at(&mut world, at);
    }
    world.window.get_by_label("First side, from corner 1 to 2").type_text("800 mm");
    world.window.run();
    world.window.get_by_label("Second side, from corner 2 to 3").focus();
    world.window.run();
    world.window.get_by_label("Second side, from corner 2 to 3").type_text("500 mm");
    world.click("Straighten");
    let photo = only(&world);
    assert!(matches!(photo.content, Content::Straightened { .. }));
    let map = photo.map().unwrap();
    let [a, b, c, _] = corners.map(|px| map.apply(px).unwrap());
    // The clicks fall on whole screen points.
    assert!((a.distance(b) - 800.0).abs() < 8.0, "{}", a.distance(b));
    assert!((b.distance(c) - 500.0).abs() < 8.0, "{}", b.distance(c));
    assert_eq!(file::faults_of(world.bay()), []);
}

#[test]
fn clicks_for_points_leave_the_bay_and_what_is_selected_alone() {
    let mut world = with_photo();
    let (run, things) =
        (world.app().selected_run().map(str::to_owned), world.app().selected_things().to_vec());
    world.click("Move\u{2026}");
    let from = middle_of(&world, View::Side);
    let before = only(&world).origin;
    // In another view nothing is picked.
    let elsewhere = middle_of(&world, View::Plan);
    click_at(&mut world, elsewhere);
    assert!(world.has_containing("is in the side view"));
    click_at(&mut world, from);
    click_at(&mut world, from + vec2(40.0, 0.0));
    let moved = only(&world).origin - before;
    let scale = world.app().canvas().cameras.of(View::Side).points_per_mm;
    assert!(moved.distance(dvec2(40.0 / scale, 0.0)) < 1.0, "{moved}");
    assert_eq!(world.app().selected_run(), run.as_deref());
    assert_eq!(world.app().selected_things(), things);
}

#[test]
fn a_photo_is_pulled_to_where_it_belongs_in_one_step_and_escape_puts_it_back() {
    let mut world = with_photo();
    let before = only(&world).origin;
    let scale = world.app().canvas().cameras.of(View::Side).points_per_mm;
    let from = middle_of(&world, View::Side);
    world.click("Move\u{2026}");
    let pull = |world: &mut World| {
        world.window.drag_at(from);
        world.window.run();
        for share in [0.5, 1.0] {
            world.window.hover_at(from + share * vec2(60.0, -40.0));
            world.window.run();
        }
    };
    let drop = |world: &mut World| {
        world.window.drop_at(from + vec2(60.0, -40.0));
        world.window.run();
    };
    pull(&mut world);
    let under_way = only(&world).origin - before;
    assert!(under_way.distance(dvec2(60.0, 40.0) / scale) < 1.0, "it goes along: {under_way}");
    world.press(Key::Escape);
    assert_eq!(only(&world).origin, before, "put back");
    drop(&mut world);
    assert_eq!(only(&world).origin, before);
    assert!(world.has("Stop"), "the next pull moves it");
    pull(&mut world);
    drop(&mut world);
    let moved = only(&world).origin - before;
    assert!(moved.distance(dvec2(60.0, 40.0) / scale) < 1.0, "{moved}");
    assert!(!world.has("Stop"), "done with picking");
    world.press_ctrl(Key::Z);
    assert_eq!(only(&world).origin, before, "one step");
}

#[test]
fn a_missing_photo_is_said_and_the_bay_opens_all_the_same() {
    let mut world = with_photo();
    world.press_ctrl(Key::S);
    let bay = world.in_folder("car.bay.json");
    std::fs::remove_file(world.in_folder("photos/side.png")).unwrap();
    drop_at(&mut world, &bay, pos2(300.0, 300.0));
    assert_eq!(world.app().missing_background("side"), Some("there is no such file"));
    world.press(Key::U);
    assert!(world.has("It is missing: there is no such file"));
    // Back in its place, it is found without opening the bay again.
    picture(&world.in_folder("photos/side.png"));
    world.click("Look again");
    settle(&mut world);
    assert_eq!(world.app().missing_background("side"), None);
}

#[test]
fn a_bay_without_a_file_gets_its_paths_when_it_is_saved() {
    let mut world = World::new();
    let photo = world.in_folder("photos/floor.png");
    picture(&photo);
    drop_at(&mut world, &photo, pos2(300.0, 300.0));
    assert_eq!(only(&world).file, photo.to_string_lossy());
    let path = world.in_folder("bays/new.bay.json");
    std::fs::create_dir_all(path.parent().unwrap()).unwrap();
    world.will_answer(Reply::Path(path.clone()));
    world.press_ctrl(Key::S);
    assert_eq!(only(&world).file, "../photos/floor.png");
    assert_eq!(file::load(&path).unwrap(), *world.bay());
    assert!(!world.app().document().unwrap().is_changed());
    // One step back and forward again it is still found.
    world.press_ctrl(Key::Z);
    world.press_ctrl(Key::Y);
    settle(&mut world);
    assert_eq!(only(&world).file, "../photos/floor.png");
    assert_eq!(world.app().missing_background(&only(&world).id), None);
}

#[test]
fn an_outline_is_read_in_its_own_unit() {
    let mut world = World::with_car();
    let path = world.in_folder("frame.dxf");
    let pairs = "0 SECTION 2 HEADER 9 $ACADVER 1 AC1015 9 $INSUNITS 70 1 0 ENDSEC 0 SECTION 2 \
        ENTITIES 0 LINE 8 0 10 0 20 0 30 0 11 10 21 4 31 0 0 ENDSEC 0 EOF";
    let text = pairs.split_whitespace().collect::<Vec<_>>().join("\n");
    std::fs::write(&path, text).unwrap();
    let at = middle_of(&world, View::Front);
    drop_at(&mut world, &path, at);
    let outline = only(&world);
    assert_eq!(outline.content, Content::Outline { scale: 25.4 });
    assert_eq!(outline.plane, Plane::Front);
    assert!(world.has_containing("one unit is 1 in, as the file says"));
    assert!(!world.has("Straighten from four corners\u{2026}"));
}

#[test]
fn a_mesh_becomes_an_obstacle_in_the_unit_that_is_told() {
    let mut world = World::with_car();
    let path = world.in_folder("meshes/bracket.stl");
    std::fs::create_dir_all(path.parent().unwrap()).unwrap();
    let text = "solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 2 0 0\nvertex 0 1 0\n\
        endloop\nendfacet\nendsolid a\n";
    std::fs::write(&path, text).unwrap();
    let at = middle_of(&world, View::Plan);
    drop_at(&mut world, &path, at);
    assert!(world.has_containing("In which unit was bracket.stl drawn?"));
    world.click("Inches: 2 × 1 × 0 in");
    let obstacle = world.bay().obstacle("bracket").unwrap();
    let Shape::Mesh { file, scale, mesh, .. } = &obstacle.shape else { panic!("no mesh") };
    assert_eq!((file.as_str(), *scale), ("meshes/bracket.stl", 25.4));
    assert!((mesh.bounds().1.x - 50.8).abs() < 1e-9);
    world.press_ctrl(Key::S);
    let again = file::load(&world.in_folder("car.bay.json")).unwrap();
    assert_eq!(again, *world.bay());
}

#[test]
fn a_mesh_is_moved_by_hand_and_read_back_where_it_was_put() {
    let empty = World::new();
    let text = r#"{ "format": "hosewright-bay", "version": 1, "show_units": "mm",
        "obstacles": [ { "id": "m", "name": "Bracket", "locked": false, "kind": "mesh", "file": "m.stl" } ],
        "routings": [ { "id": "a", "runs": [] } ] }"#;
    std::fs::write(empty.in_folder("m.bay.json"), text).unwrap();
    let stl = "solid a\nfacet normal 0 0 1\nouter loop\nvertex 0 0 0\nvertex 200 0 0\n\
        vertex 0 100 0\nendloop\nendfacet\nendsolid a\n";
    std::fs::write(empty.in_folder("m.stl"), stl).unwrap();
    let mut world = World::beside(&empty, Some("m.bay.json"));
    let on_it = |world: &World, p: DVec2| {
        let canvas = world.app().canvas();
        let at = canvas.cameras.of(View::Plan).to_screen(canvas.areas[View::Plan.index()], p);
        pos2(at.x as f32, at.y as f32)
    };
    let (from, to) = (on_it(&world, dvec2(50.0, 25.0)), on_it(&world, dvec2(90.0, 75.0)));
    world.drag_between(from, to);
    let Shape::Mesh { at, mesh, .. } = &world.bay().obstacles[0].shape else { panic!("no mesh") };
    assert!(at.truncate().distance(dvec2(40.0, 50.0)) < 6.0 && at.z == 0.0, "{at}");
    assert_eq!(mesh.vertex(0), Some(*at));
    world.press_ctrl(Key::S);
    let again = file::load(world.app().document().unwrap().path().unwrap()).unwrap();
    assert_eq!(again, *world.bay());
    world.press_ctrl(Key::Z);
    let Shape::Mesh { at, .. } = &world.bay().obstacles[0].shape else { panic!("no mesh") };
    assert_eq!(*at, DVec3::ZERO);
}

#[test]
fn what_is_no_picture_is_refused_in_words() {
    let mut world = World::with_car();
    let path = world.in_folder("photo.heic");
    std::fs::write(&path, "x").unwrap();
    let at = middle_of(&world, View::Plan);
    drop_at(&mut world, &path, at);
    assert!(world.has_containing("Photos are read from JPEG and PNG"));
    world.click("Close");
    let path = world.in_folder("broken.png");
    std::fs::write(&path, "x").unwrap();
    drop_at(&mut world, &path, at);
    assert!(world.has_containing("broken.png cannot be read"));
    assert!(world.bay().backgrounds.is_empty());
}

#[test]
fn the_panel_sets_opacity_locks_hides_and_deletes() {
    let mut world = with_photo();
    world.click("Lock");
    assert!(only(&world).locked);
    assert!(world.window.get_by_label("Move\u{2026}").accesskit_node().is_disabled());
    world.click("Hide");
    assert!(only(&world).hidden);
    world.click("Front");
    assert_eq!(only(&world).plane, Plane::Front);
    let opacity = world.window.get_by_role_and_label(egui::accesskit::Role::Slider, "Opacity");
    opacity.set_value_accesskit(25.0);
    world.window.run();
    assert!((only(&world).opacity - 0.25).abs() < 1e-9, "{}", only(&world).opacity);
    let deletes: Vec<_> = world.window.get_all_by_label("Delete").collect();
    deletes[deletes.len() - 1].click();
    world.window.run();
    assert!(world.bay().backgrounds.is_empty());
}

#[test]
fn a_photo_is_renamed_and_brought_forward_over_another() {
    let mut world = with_photo();
    let second = world.in_folder("photos/above.png");
    picture(&second);
    let at = middle_of(&world, View::Side);
    drop_at(&mut world, &second, at);
    let names = |world: &World| -> Vec<String> {
        let all = world.bay().backgrounds.iter();
        all.map(|entry| entry.known().expect("known").title().to_owned()).collect()
    };
    assert_eq!(names(&world), ["side.png", "above.png"]);
    world.click("Send back");
    assert_eq!(names(&world), ["above.png", "side.png"]);
    world.click("Bring forward");
    assert_eq!(names(&world), ["side.png", "above.png"]);
    world.window.get_by_label("Name").focus();
    world.window.run();
    world.press_ctrl(Key::A);
    world.window.get_by_label("Name").type_text("From the left");
    world.press(Key::Enter);
    assert_eq!(names(&world), ["side.png", "From the left"]);
    world.press_ctrl(Key::Z);
    assert_eq!(names(&world), ["side.png", "above.png"]);
}

#[test]
fn another_file_takes_the_place_of_one_that_is_gone_and_lies_as_it_did() {
    let mut world = with_photo();
    let before = only(&world).clone();
    let there = world.in_folder("elsewhere/side.png");
    picture(&there);
    let outline = world.in_folder("frame.dxf");
    std::fs::write(&outline, "0\nEOF\n").unwrap();
    let replies = [outline, there].map(Reply::Path);
    // The last is given first.
    world.answers.replies.borrow_mut().extend(replies.into_iter().rev());
    world.click("Choose another file\u{2026}");
    settle(&mut world);
    assert!(world.has_containing("frame.dxf is of another kind"));
    world.press(Key::Escape);
    assert_eq!(only(&world), &before);
    world.click("Choose another file\u{2026}");
    settle(&mut world);
    assert_eq!(only(&world), &Background { file: "elsewhere/side.png".into(), ..before.clone() });
    assert_eq!(world.app().missing_background(&before.id), None);
}

#[test]
fn after_a_refusal_the_question_keeps_the_keyboard() {
    let mut world = with_photo();
    let before = world.bay().clone();
    world.click("Set scale from two points\u{2026}");
    let middle = middle_of(&world, View::Side);
    click_at(&mut world, middle);
    click_at(&mut world, middle + vec2(60.0, 0.0));
    world.window.get_by_label("Distance").type_text("800 mmm");
    world.press(Key::Enter);
    world.window.run();
    // What is typed next goes into the field, and no key to the bay behind.
    world.press_ctrl(Key::A);
    world.window.input_mut().events.push(egui::Event::Text("800 mm".to_owned()));
    world.window.run();
    world.press(Key::M);
    assert_eq!(*world.bay(), before);
    world.press(Key::Enter);
    assert_ne!(*world.bay(), before, "the scale is set");
    assert_eq!(world.bay().ports, before.ports);
    assert!(!world.has("Distance between the two points"));
    world.press_ctrl(Key::Z);
    assert_eq!(*world.bay(), before);
}

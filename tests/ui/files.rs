//! Opening, saving, and never losing work.

use eframe::egui::{Key, vec2};
use egui_kittest::kittest::Queryable as _;
use hosewright::app::files::{Reply, Wanted};
use hosewright::document::file;
use hosewright::units::Length;

use crate::world::World;

const PORT: &str = "Port Clutch slave cylinder, inlet, plan";

fn changed() -> World {
    let mut world = World::with_car();
    world.drag(PORT, vec2(0.0, -30.0));
    assert!(world.app().document().unwrap().is_changed());
    world
}

#[test]
fn with_no_file_there_is_an_invitation() {
    let mut world = World::new();
    for label in ["Open a bay\u{2026}", "New bay"] {
        assert!(world.has(label), "{label}");
    }
    for sample in ["Light trials car", "Small diesel launch", "Faults on purpose"] {
        assert!(world.has(sample), "{sample}");
    }
    world.click("New bay");
    assert_eq!(world.bay().routings.len(), 1);
    assert!(world.has_containing("No hose in this bay yet"));
}

#[test]
fn a_new_bay_can_be_saved_and_read_again() {
    let mut world = World::new();
    world.click("New bay");
    let path = world.in_folder("new.bay.json");
    world.will_answer(Reply::Path(path.clone()));
    world.press_ctrl(Key::S);
    assert_eq!(file::load(&path).unwrap(), *world.bay());
}

#[test]
fn new_asks_before_work_is_lost_and_cancel_stays() {
    let mut world = changed();
    let bay = world.bay().clone();
    world.press_ctrl(Key::N);
    assert!(world.has("Save") && world.has("Discard") && world.has("Cancel"));
    world.click("Cancel");
    assert_eq!(*world.bay(), bay);
    world.press_ctrl(Key::N);
    world.click("Discard");
    assert!(world.bay().ports.is_empty());
}

#[test]
fn quitting_saves_first_when_told_to() {
    let mut world = changed();
    let bay = world.bay().clone();
    world.press_ctrl(Key::Q);
    assert!(!world.app().is_leaving());
    world.click("Save");
    assert!(world.app().is_leaving());
    assert_eq!(file::load(&world.in_folder("car.bay.json")).unwrap(), bay);
}

#[test]
fn quitting_without_changes_asks_nothing() {
    let mut world = World::with_car();
    world.press_ctrl(Key::Q);
    assert!(world.app().is_leaving());
}

#[test]
fn a_save_that_is_cancelled_quits_nothing() {
    let mut world = World::new();
    world.click("Light trials car");
    world.drag(PORT, vec2(0.0, -30.0));
    world.press_ctrl(Key::Q);
    world.will_answer(Reply::Cancelled);
    world.click("Save");
    assert!(!world.app().is_leaving());
    assert!(world.app().document().unwrap().is_changed());
}

#[test]
fn a_file_that_is_refused_shows_its_faults_and_loses_nothing() {
    let mut world = changed();
    let bay = world.bay().clone();
    let path = world.in_folder("broken.bay.json");
    let text = r#"{ "format": "hosewright-bay", "version": 1, "title": 7, "routings": [] }"#;
    std::fs::write(&path, text).unwrap();
    world.will_answer(Reply::Path(path));
    world.press_ctrl(Key::O);
    world.click("Discard");
    assert!(world.has_containing("cannot be opened"));
    assert!(world.has_containing("/title"), "the place of the fault");
    assert!(world.has_containing("/routings"), "and of the other one");
    world.click("Close");
    assert_eq!(*world.bay(), bay);
}

#[test]
fn where_no_dialog_answers_a_path_can_be_typed() {
    let mut world = World::with_car();
    world.will_answer(Reply::NoService);
    world.press_ctrl_shift(Key::S);
    let field = world.window.get_by_label("Path");
    field.focus();
    world.window.run();
    world.press_ctrl(Key::A);
    let path = world.in_folder("typed");
    world.window.get_by_label("Path").type_text(&path.display().to_string());
    world.window.run();
    world.press(Key::Enter);
    let path = world.in_folder("typed.bay.json");
    assert!(path.is_file(), "the ending is put on");
    assert_eq!(world.app().document().unwrap().path(), Some(path.as_path()));
}

#[test]
fn a_typed_path_of_a_file_that_exists_is_asked_about() {
    let mut world = World::with_car();
    world.will_answer(Reply::NoService);
    world.press_ctrl_shift(Key::S);
    // The box proposes the bay's own file.
    assert!(world.has("Replace"));
    world.press(Key::Escape);
    assert!(!world.has("Replace"));
}

#[test]
fn a_title_with_letters_is_typed_without_calling_anything() {
    let mut world = World::with_car();
    world.will_answer(Reply::NoService);
    world.press_ctrl_shift(Key::S);
    let routing = world.app().routing();
    world.window.get_by_label("Path").type_text("o");
    world.press(Key::O);
    assert_eq!(world.app().routing(), routing);
}

#[test]
fn files_opened_lately_are_offered() {
    let world = World::with_car();
    let recent = world.in_folder("recent.json");
    let text = std::fs::read_to_string(recent).unwrap();
    assert!(text.contains("car.bay.json"));
}

#[test]
fn saving_proposes_a_name_from_the_title() {
    let mut world = World::new();
    world.click("Light trials car");
    world.press_ctrl(Key::S);
    let asked = world.answers.asked.borrow();
    let [Wanted::Save { near }] = asked.as_slice() else { panic!("{asked:?}") };
    assert_eq!(near.to_str(), Some("light-trials-car-front-bay.bay.json"));
}

#[test]
fn the_length_sheet_is_written_where_told_and_says_the_cut_lengths() {
    let mut world = World::with_car();
    let path = world.in_folder("lengths.html");
    world.will_answer(Reply::Path(path.clone()));
    world.click("Length sheet\u{2026}");
    let text = std::fs::read_to_string(path).unwrap();
    assert!(text.to_lowercase().starts_with("<!doctype html"));
    for run in &world.bay().routings[0].runs {
        let cut = Length::from_mm(world.cut_mm(&run.name)).bench_inch();
        assert!(text.contains(&run.name) && text.contains(&cut), "{} {cut}", run.name);
    }
    assert!(world.has_containing("Wrote lengths.html"));
}

#[test]
fn the_view_last_used_is_written_as_a_drawing() {
    let mut world = World::with_car();
    for (name, ending, begins) in [("a", "dxf", "999\nWritten by"), ("b.svg", "svg", "<")] {
        let path = world.in_folder(name);
        world.will_answer(Reply::Path(path.clone()));
        world.click("File");
        world.click("Drawing of the view\u{2026}");
        let text = std::fs::read_to_string(path.with_extension(ending)).unwrap();
        assert!(text.trim_start().starts_with(begins.trim_start()), "{}", &text[..40]);
        for run in &world.bay().routings[0].runs {
            assert!(text.contains(&run.name), "{}", run.name);
        }
    }
    let asked = world.answers.asked.borrow();
    let Some(Wanted::Drawing { near, view }) = asked.first() else { panic!("{asked:?}") };
    assert_eq!(*view, world.app().canvas().active);
    let ending = format!("-a-low-{}.dxf", view.name().to_lowercase());
    assert!(near.to_string_lossy().ends_with(&ending), "{near:?}");
}

#[test]
fn labels_and_a_template_are_written_as_pdf_beside_the_bay() {
    let mut world = World::with_car();
    let run = world.bay().routings[0].runs[1].clone();
    world.click(&format!("Hose {}, plan", run.name));
    for (ask, name) in [("Labels\u{2026}", "labels"), ("Full-size template\u{2026}", "feed")] {
        let path = world.in_folder(name);
        world.will_answer(Reply::Path(path.clone()));
        world.click("File");
        world.click(ask);
        let bytes = std::fs::read(path.with_extension("pdf")).unwrap();
        assert!(bytes.starts_with(b"%PDF-"), "{name}");
        assert!(world.has_containing(&format!("Wrote {name}.pdf")));
    }
    let asked = world.answers.asked.borrow();
    let [Wanted::Labels { near: labels }, Wanted::Template { near, run: wanted }] =
        asked.as_slice()
    else {
        panic!("{asked:?}")
    };
    assert!(labels.to_string_lossy().ends_with("-a-low-labels.pdf"), "{labels:?}");
    assert!(near.to_string_lossy().ends_with("-a-low-template-feed.pdf"), "{near:?}");
    assert_eq!(*wanted, run.id);
}

#[test]
fn a_title_that_would_crash_the_window_is_refused_with_words() {
    let mut world = World::new();
    let path = world.in_folder("odd.bay.json");
    for title in ["a\\u0000b", "a\\n\\n\\n\\n\\n\\nb", "a\\u202eb"] {
        let text = format!(
            "{{\"format\":\"hosewright-bay\",\"version\":1,\"title\":\"{title}\",\"routings\":[{{\"id\":\"o\"}}]}}"
        );
        std::fs::write(&path, text).unwrap();
        world.will_answer(Reply::Path(path.clone()));
        world.press_ctrl(Key::O);
        assert!(world.has_containing("odd.bay.json cannot be opened"), "{title}");
        assert!(world.has_containing("/title: found"), "{title}");
        assert!(world.app().document().is_none());
        world.press(Key::Escape);
    }
}

#[test]
fn a_template_of_many_pages_is_asked_about_first() {
    let mut world = World::with_car();
    let mut bay = world.bay().clone();
    let run = bay.routings[0].runs[1].clone();
    let far = bay.ports.iter_mut().find(|port| port.id == run.to.port).unwrap();
    far.at.x += 14_000.0;
    let path = world.in_folder("long.bay.json");
    file::save(&path, &bay).unwrap();
    world.will_answer(Reply::Path(path));
    world.press_ctrl(Key::O);
    world.click(&format!("Hose {}, plan", run.name));
    let out = world.in_folder("long.pdf");
    for (answer, is_written) in [("Cancel", false), ("Write", true)] {
        world.will_answer(Reply::Path(out.clone()));
        world.click("File");
        world.click("Full-size template\u{2026}");
        assert!(world.has_containing(" pages"), "asked");
        let button = if is_written {
            let pages = (51..=200).find(|n| world.has(&format!("Write {n} pages")));
            format!("Write {} pages", pages.unwrap())
        } else {
            answer.to_owned()
        };
        world.click(&button);
        assert_eq!(out.exists(), is_written);
    }
}

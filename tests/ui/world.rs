//! A window without a desktop: dialogs answer what the test says, recent files live in a temporary
//! folder.

use std::cell::RefCell;
use std::path::{Path, PathBuf};
use std::rc::Rc;
use std::sync::Arc;
use std::sync::mpsc::{Receiver, channel};
use std::time::Duration;

use eframe::egui::{Key, Modifiers, Pos2, Theme, Vec2, vec2};
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use glam::DVec3;
use hosewright::app::files::{Dialogs, Reply, Wanted};
use hosewright::app::recent::Recent;
use hosewright::app::recovery::Recovery;
use hosewright::app::settings::Store;
use hosewright::app::{App, Services, theme};
use hosewright::engine::solve_routing;
use hosewright::model::{Bay, Run};

/// Dialogs that answer what was put in.
#[derive(Clone, Default)]
pub(crate) struct Answers {
    pub(crate) replies: Rc<RefCell<Vec<Reply>>>,
    pub(crate) asked: Rc<RefCell<Vec<Wanted>>>,
}

impl Dialogs for Answers {
    fn ask(&self, wanted: &Wanted) -> Receiver<Reply> {
        self.asked.borrow_mut().push(wanted.clone());
        let (send, receive) = channel();
        let reply = self.replies.borrow_mut().pop().unwrap_or(Reply::Cancelled);
        send.send(reply).unwrap();
        receive
    }
}

/// Long enough for everything that another thread does.
const LONG: Duration = Duration::from_mins(1);

pub(crate) struct World {
    pub(crate) window: Harness<'static, App>,
    pub(crate) answers: Answers,
    pub(crate) folder: Rc<tempfile::TempDir>,
}

impl World {
    /// With no bay open.
    pub(crate) fn new() -> Self {
        Self::with(None, vec2(1366.0, 768.0), Theme::Light)
    }

    /// With a copy of the car that has faults on purpose, in a temporary folder.
    pub(crate) fn with_car() -> Self {
        Self::with(
            Some("demo_projects/faults-on-purpose.bay.json"),
            vec2(1366.0, 768.0),
            Theme::Light,
        )
    }

    pub(crate) fn with(demo: Option<&str>, size: Vec2, theme: Theme) -> Self {
        let folder = tempfile::tempdir().unwrap();
        let path = demo.map(|demo| {
            let path = folder.path().join("car.bay.json");
            std::fs::copy(Path::new(env!("CARGO_MANIFEST_DIR")).join(demo), &path).unwrap();
            path
        });
        Self::open(Rc::new(folder), path, size, theme, LONG)
    }

    fn open(
        folder: Rc<tempfile::TempDir>,
        path: Option<PathBuf>,
        size: Vec2,
        theme: Theme,
        patience: Duration,
    ) -> Self {
        let answers = Answers::default();
        let services = Services {
            dialogs: Box::new(answers.clone()),
            recent: Recent::stored_in(folder.path().join("recent.json")),
            settings: Store::stored_in(folder.path().join("settings.json")),
            recovery: Recovery::stored_in(folder.path().join("recovery"), Duration::ZERO),
            wake: Arc::new(|| {}),
            patience,
            show: |_| Ok(()),
        };
        let mut window = Harness::builder()
            .with_size(size)
            .with_theme(theme)
            .with_max_steps(12)
            .with_context_setup(theme::install)
            .build_eframe(move |_| App::new(path, services));
        window.run();
        Self { window, answers, folder }
    }

    /// With no bay open; it shows the progress of everything that another thread does.
    pub(crate) fn impatient() -> Self {
        let folder = Rc::new(tempfile::tempdir().unwrap());
        Self::open(folder, None, vec2(1366.0, 768.0), Theme::Light, Duration::ZERO)
    }

    /// Another window on the same folder.
    pub(crate) fn beside(other: &Self, file: Option<&str>) -> Self {
        let path = file.map(|file| other.in_folder(file));
        Self::open(Rc::clone(&other.folder), path, vec2(1366.0, 768.0), Theme::Light, LONG)
    }

    /// The window goes without parting, as in a crash, and another opens.
    pub(crate) fn crash_and_open(self, file: Option<&str>) -> Self {
        let path = file.map(|file| self.in_folder(file));
        let folder = Rc::clone(&self.folder);
        drop(self);
        Self::open(folder, path, vec2(1366.0, 768.0), Theme::Light, LONG)
    }

    /// Waits until the recovery copy is written or taken away.
    pub(crate) fn settle(&self) {
        self.app().recovery().settle();
    }

    /// A bay with a mesh that takes a while to read.
    pub(crate) fn big_bay(path: &Path) {
        let text = r#"{ "format": "hosewright-bay", "version": 1, "title": "Big",
            "obstacles": [ { "id": "m", "kind": "mesh", "file": "big.stl" } ],
            "routings": [ { "id": "a", "runs": [] } ] }"#;
        std::fs::write(path, text).unwrap();
        let count = 60_000_u32;
        let mut stl = vec![0; 80];
        stl.extend(count.to_le_bytes());
        for k in 0..count {
            let x = f64::from(k) as f32;
            stl.extend([0; 12]);
            for value in [x, 0.0, 0.0, x + 1.0, 0.0, 0.0, x, 2.0, 1.0] {
                stl.extend(value.to_le_bytes());
            }
            stl.extend([0; 2]);
        }
        std::fs::write(path.with_file_name("big.stl"), stl).unwrap();
    }

    /// Waits for words that a thread of its own works out.
    pub(crate) fn wait_for(&mut self, text: &str) {
        self.wait_until(|world| world.has_containing(text));
        assert!(self.has_containing(text), "\"{text}\" did not come");
    }

    /// Waits for words that are there until a thread has answered to go.
    pub(crate) fn wait_while_it_says(&mut self, text: &str) {
        self.wait_until(|world| !world.has_containing(text));
        assert!(!self.has_containing(text), "\"{text}\" did not go");
    }

    fn wait_until(&mut self, is_so: impl Fn(&Self) -> bool) {
        for _ in 0..3000 {
            self.window.run();
            if is_so(self) {
                return;
            }
            std::thread::sleep(Duration::from_millis(20));
        }
    }

    pub(crate) fn app(&self) -> &App {
        self.window.state()
    }

    pub(crate) fn bay(&self) -> &Bay {
        self.app().document().expect("a bay is open").bay()
    }

    /// The run of this name in the routing in view.
    pub(crate) fn run(&self, name: &str) -> &Run {
        let routing = &self.bay().routings[self.app().routing()];
        routing.runs.iter().find(|run| run.name == name).expect(name)
    }

    /// Its cut length.
    pub(crate) fn cut_mm(&self, name: &str) -> f64 {
        let routing = &self.bay().routings[self.app().routing()];
        let index = routing.runs.iter().position(|run| run.name == name).expect(name);
        solve_routing(self.bay(), routing).run(index).expect("solved").cut_length_mm
    }

    pub(crate) fn via(&self, name: &str, via: usize) -> DVec3 {
        self.run(name).via[via].at()
    }

    pub(crate) fn click(&mut self, label: &str) {
        self.window.get_by_label(label).click();
        self.window.run();
    }

    pub(crate) fn has(&self, label: &str) -> bool {
        self.window.query_all_by_label(label).next().is_some()
    }

    pub(crate) fn has_containing(&self, text: &str) -> bool {
        self.window.query_all_by_label_contains(text).next().is_some()
    }

    pub(crate) fn place_of(&self, label: &str) -> Pos2 {
        self.window.get_by_label(label).rect().center()
    }

    /// Presses on a thing and moves the pointer; the button stays down.
    pub(crate) fn take_and_move(&mut self, label: &str, by: Vec2) -> Pos2 {
        let from = self.place_of(label);
        self.window.drag_at(from);
        self.window.run();
        for share in [0.3, 0.7, 1.0] {
            self.window.hover_at(from + share * by);
            self.window.run();
        }
        from + by
    }

    pub(crate) fn drag(&mut self, label: &str, by: Vec2) {
        let to = self.take_and_move(label, by);
        self.window.drop_at(to);
        self.window.run();
    }

    pub(crate) fn press(&mut self, key: Key) {
        self.window.key_press(key);
        self.window.run();
    }

    pub(crate) fn press_ctrl(&mut self, key: Key) {
        self.window.key_press_modifiers(Modifiers::COMMAND, key);
        self.window.run();
    }

    pub(crate) fn press_ctrl_shift(&mut self, key: Key) {
        self.window.key_press_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, key);
        self.window.run();
    }

    pub(crate) fn press_shift(&mut self, key: Key) {
        self.window.key_press_modifiers(Modifiers::SHIFT, key);
        self.window.run();
    }

    pub(crate) fn in_folder(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// What the next dialog answers.
    pub(crate) fn will_answer(&self, reply: Reply) {
        self.answers.replies.borrow_mut().push(reply);
    }
}

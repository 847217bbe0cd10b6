//! The one place where what was asked for is carried out.

use std::path::Path;

use eframe::egui::{Context, ViewportCommand};

use super::actions::{Action, Appearance, Ask, Edit, Listed, Tool};
use super::canvas::thing::Thing;
use super::finder::Finder;
use super::over::Page;
use super::settings::TEXT_PERCENT;
use super::solved::Solved;
use super::state::{Notice, Trouble};
use super::unsaved::After;
use super::{App, samples};
use crate::document::Command;
use crate::model::{Bay, Routing};
use crate::units::shown_path;

impl App {
    /// Carries out what was asked for, in order.
    pub(super) fn dispatch(&mut self, ctx: &Context, actions: Vec<Action>) {
        for action in actions {
            self.carry_out(ctx, action);
        }
    }

    fn carry_out(&mut self, ctx: &Context, action: Action) {
        match action {
            Action::Ask(ask) => self.ask_of_looks(ctx, ask),
            Action::OpenPath(path) => self.unless_unsaved(After::OpenPath(path)),
            Action::OpenDemo(index) => self.unless_unsaved(After::OpenDemo(index)),
            Action::ForgetRecent => self.services.recent.clear(),
            Action::SetUnits(unit) => self.apply(&Command::SetUnits(unit)),
            Action::Change(command) => self.apply(&command),
            Action::Pull(Some(command)) => {
                if let Some(Err(error)) = self.document.as_mut().map(|d| d.preview(&command)) {
                    self.say(error.to_string());
                }
            }
            Action::Pull(None) => {
                if let Some(document) = &mut self.document {
                    document.commit();
                }
            }
            Action::ShowRouting(routing) => self.show_routing(routing),
            Action::CompareRouting(id) => self.compare.toggle(&id),
            Action::Allow(allowances) => self.shopping.allowances = allowances,
            Action::SelectCompared(run) => self.select_compared(&run),
            Action::Move(moving) => self.canvas.moving = moving,
            Action::Appearance(appearance) => self.change_appearance(ctx, appearance),
            Action::JumpTo(thing) => self.jump_to(thing),
            Action::NameRouting(id, name) => self.name_routing(&id, &name),
            Action::StopNamingRouting => self.over.routing_name = None,
            Action::Decide(decision) => self.decide(decision),
            Action::SaveOver(answer) => self.save_over(answer),
            Action::StopOpening => self.stop_opening(),
            Action::WriteTemplate(true) => self.want_template(),
            Action::WriteTemplate(false) => self.stop_template(),
            Action::CloseFinder => self.over.finder = None,
            Action::ClosePage => self.over.page = None,
            Action::Select(thing) => self.select_thing(thing),
            Action::LookAway => self.look_away(),
            Action::LookAt(finding) => self.look_at(finding),
            Action::Pan { view, by } => self.canvas.look().pan(view, by),
            Action::Zoom { view, factor, area, at, anchor } => {
                self.canvas.look().zoom(view, factor, area, at, anchor);
            }
            Action::FitView(view) => self.fit_view(view),
            Action::Turn(deed) => {
                let bounds = self.solved.as_ref().and_then(|solved| solved.scene.bounds);
                self.canvas.turn(deed, bounds);
            }
            Action::Gesture(gesture) => self.gesture(&gesture),
            Action::Typed(typed) => self.typed(&typed),
            Action::TakeTool(tool) => self.take_tool(tool),
            Action::DrawAs(kind) => self.obstacle_kind = kind,
            Action::Edit(edit) => self.edit(edit),
            Action::StripCursor(mm) => self.strip_cursor_mm = mm,
            Action::List(listed) => self.listed = listed,
            Action::Nudge { thing, view, by } => self.nudge(thing, view, by),
            Action::Background(act) => self.background_act(act),
            Action::Unsaved(answer) => self.answer_unsaved(answer),
            Action::PathGiven(path) => self.path_given(&path),
            Action::TypePath => self.type_path_instead(),
            Action::CancelPath => self.cancel_path(),
            Action::CloseTrouble => self.trouble = None,
            Action::CloseNotice => self.notice = None,
            Action::Show(path) => self.show_file(&path),
        }
        ctx.request_repaint();
    }

    /// The requests that want the window itself; the others go to [`Self::ask`].
    fn ask_of_looks(&mut self, ctx: &Context, ask: Ask) {
        match ask {
            Ask::TextLarger => self.step_text(ctx, Some(true)),
            Ask::TextSmaller => self.step_text(ctx, Some(false)),
            Ask::TextUsual => self.step_text(ctx, None),
            Ask::HighContrast => {
                self.change_appearance(
                    ctx,
                    Appearance::HighContrast(!self.settings().high_contrast),
                );
            }
            _ => self.ask(ask),
        }
    }

    pub(super) fn ask(&mut self, ask: Ask) {
        if !self.can(ask) {
            return;
        }
        match ask {
            Ask::New => self.unless_unsaved(After::New),
            Ask::Open => self.unless_unsaved(After::Open),
            Ask::Save => self.save(),
            Ask::SaveAs => self.save_as(),
            Ask::Sheet => self.ask_for_sheet(),
            Ask::Labels => self.ask_for_labels(),
            Ask::Template => self.ask_for_template(),
            Ask::Drawing => self.ask_for_drawing(),
            Ask::Backgrounds => {
                self.close_compare();
                self.shopping.is_open = false;
                self.desk.is_open = !self.desk.is_open;
            }
            Ask::AddBackground => self.ask_for_background(),
            Ask::ImportMesh => self.ask_for_mesh(),
            Ask::Quit => self.unless_unsaved(After::Quit),
            Ask::Undo => self.step(crate::document::Document::undo),
            Ask::Redo => self.step(crate::document::Document::redo),
            Ask::Fit => self.canvas.want_fit(),
            Ask::LinkViews => {
                let linked = self.canvas.cameras.linked();
                self.canvas.cameras.set_linked(!linked);
                self.services.settings.settings.views_linked = !linked;
            }
            Ask::NextFinding => self.turn_findings(true),
            Ask::PreviousFinding => self.turn_findings(false),
            Ask::NextRouting => {
                let count = self.document.as_ref().map_or(1, |d| d.bay().routings.len().max(1));
                self.show_routing((self.routing + 1) % count);
            }
            Ask::ToolSelect => self.take_tool(Tool::Select),
            Ask::ToolPort => self.take_tool(Tool::Port),
            Ask::ToolHose => self.take_tool(Tool::Hose),
            Ask::ToolClamp => self.take_tool(Tool::Clamp),
            Ask::ToolObstacle => self.take_tool(Tool::Obstacle),
            Ask::ToolMeasure => self.take_tool(Tool::Measure),
            Ask::NewGroup => self.edit(Edit::NewGroup),
            Ask::Delete => self.edit(Edit::Delete),
            Ask::Duplicate => self.edit(Edit::Duplicate),
            Ask::MirrorCopy => self.edit(Edit::Mirror { copy: true }),
            Ask::Mirror => self.edit(Edit::Mirror { copy: false }),
            Ask::Rename => {
                if let Some(thing) = self.selected.thing().cloned() {
                    self.edit(Edit::Rename(thing));
                }
            }
            Ask::SelectAll => self.select_all(false),
            Ask::SelectKind => self.select_all(true),
            Ask::DuplicateRouting => self.duplicate_routing(),
            Ask::RenameRouting => self.begin_routing_name(),
            Ask::DeleteRouting => self.delete_routing(),
            Ask::RoutingEarlier => self.move_routing(false),
            Ask::RoutingLater => self.move_routing(true),
            Ask::Compare => self.toggle_compare(),
            Ask::ComparePage => self.ask_for_comparison(),
            Ask::Shopping => self.toggle_shopping(),
            Ask::ShoppingCsv => self.ask_for_shopping_csv(),
            Ask::Finder => self.over.finder = Some(Finder::default()),
            Ask::Keys => self.over.page = Some(Page::Keys),
            Ask::About => self.over.page = Some(Page::About),
            // Done before.
            Ask::TextLarger | Ask::TextSmaller | Ask::TextUsual | Ask::HighContrast => {}
            Ask::View(pane) => self.canvas.panes.enlarge(pane),
            Ask::ShowView(pane) => {
                self.canvas.panes.toggle(pane);
                self.services.settings.settings.views = self.canvas.panes.names();
            }
            Ask::AllViews => {
                self.canvas.panes.show_all();
                self.services.settings.settings.views = None;
            }
            Ask::FitSelection => self.fit_selection(),
            Ask::ToggleGhost => self.toggle_ghost(),
            Ask::ToggleInstalled => self.canvas.installed = !self.canvas.installed,
            Ask::PlayMotion => self.play_motion(),
            Ask::Escape => self.escape(),
        }
    }

    /// Whether a request makes sense just now.
    pub(super) fn can(&self, ask: Ask) -> bool {
        let document = self.document.as_ref();
        match ask {
            Ask::New
            | Ask::Open
            | Ask::Quit
            | Ask::TextUsual
            | Ask::HighContrast
            | Ask::Finder
            | Ask::Keys
            | Ask::About
            | Ask::Escape => true,
            Ask::TextLarger => self.settings().text_percent < TEXT_PERCENT[1],
            Ask::TextSmaller => self.settings().text_percent > TEXT_PERCENT[0],
            Ask::RoutingEarlier => document.is_some() && self.routing > 0,
            Ask::RoutingLater => {
                document.is_some_and(|d| self.routing + 1 < d.bay().routings.len())
            }
            Ask::Save
            | Ask::SaveAs
            | Ask::DuplicateRouting
            | Ask::RenameRouting
            | Ask::Shopping
            | Ask::Backgrounds
            | Ask::AddBackground
            | Ask::ImportMesh
            | Ask::Fit
            | Ask::LinkViews
            | Ask::ToolSelect
            | Ask::ToolPort
            | Ask::ToolHose
            | Ask::ToolClamp
            | Ask::ToolObstacle
            | Ask::ToolMeasure
            | Ask::View(_)
            | Ask::ShowView(_)
            | Ask::AllViews
            | Ask::SelectAll => document.is_some(),
            Ask::PlayMotion => {
                self.solved.as_ref().is_some_and(|solved| solved.positions().len() > 1)
            }
            Ask::FitSelection => self.bounds_of_selection().is_some(),
            Ask::Sheet | Ask::Labels | Ask::Drawing | Ask::ToggleInstalled => self.solved.is_some(),
            Ask::Template => self.solved.is_some() && self.selected_run().is_some(),
            Ask::Undo => document.is_some_and(|d| d.history().undo_label().is_some()),
            Ask::Redo => document.is_some_and(|d| d.history().redo_label().is_some()),
            Ask::NextFinding | Ask::PreviousFinding => {
                self.solved.as_ref().is_some_and(|solved| !solved.answer.findings.is_empty())
            }
            Ask::ShoppingCsv => self.shopping.found().is_some() && self.shopping.is_fresh(),
            Ask::ComparePage => self.compare.found().is_some() && self.compare.is_fresh(),
            Ask::NextRouting | Ask::DeleteRouting | Ask::ToggleGhost | Ask::Compare => {
                document.is_some_and(|d| d.bay().routings.len() > 1)
            }
            Ask::NewGroup | Ask::Delete | Ask::Duplicate | Ask::MirrorCopy | Ask::Mirror => {
                !self.selected.things.is_empty()
            }
            Ask::Rename | Ask::SelectKind => self.selected.thing().is_some(),
        }
    }

    fn step(&mut self, way: fn(&mut crate::document::Document) -> Option<&'static str>) {
        // In the middle of a drag undo and redo only cancel it.
        if self.drag_abort() {
            return;
        }
        self.following_routing(|app| {
            if let Some(document) = &mut app.document {
                way(document);
            }
        });
    }

    /// Goes on with something that would lose unsaved work only after asking.
    pub(super) fn unless_unsaved(&mut self, after: After) {
        self.drag_abort();
        if self.document.as_ref().is_some_and(crate::document::Document::is_changed) {
            self.unsaved = Some(after);
        } else {
            self.go_on(after);
        }
    }

    /// Does what had to wait for the unsaved work.
    pub(super) fn go_on(&mut self, after: After) {
        match after {
            After::New => self.set_document(new_bay(), None),
            After::Open => self.ask_for_file(),
            After::OpenPath(path) => self.open_path(&path),
            After::OpenDemo(index) => match samples::bay(index) {
                Ok(bay) => self.set_document(bay, None),
                Err(lines) => self.trouble("The sample bay cannot be opened", lines),
            },
            After::Quit => self.leaving = true,
        }
    }

    pub(super) fn set_document(&mut self, bay: Bay, path: Option<std::path::PathBuf>) {
        self.document = Some(crate::document::Document::new(bay, path));
        self.routing = 0;
        self.solved = None;
        self.selected = super::state::Selection::default();
        self.drag = None;
        self.desk = super::background::Desk::default();
        self.compare = super::compare::Compare::default();
        self.shopping = super::shopping::Shopping::default();
        self.sketch = None;
        self.measurement = None;
        self.renaming = None;
        self.over.stamp = None;
        self.over.routing_name = None;
        self.last_place = None;
        self.tool = Tool::Select;
        self.notice = None;
        self.canvas.ghost = None;
        self.canvas.want_fit();
    }

    pub(super) fn show_routing(&mut self, routing: usize) {
        let exists = self.document.as_ref().is_some_and(|d| routing < d.bay().routings.len());
        if exists && routing != self.routing {
            self.drag_abort();
            // What was in view goes behind what was behind it.
            if self.canvas.ghost == Some(routing) {
                self.canvas.ghost = Some(self.routing);
            }
            self.routing = routing;
            self.sketch = None;
            self.over.routing_name = None;
            self.selected.things.clear();
            self.selected.finding = None;
        }
    }

    /// Shows the card of the thing's hose; a port's is that of the first hose on it, where the one
    /// shown is not.
    pub(super) fn select_thing(&mut self, thing: Thing) {
        // Its card is in the place of the photos' panel.
        self.desk.is_open = false;
        let run = match (&thing, &self.document) {
            (Thing::Port(port), Some(document)) => {
                let runs = document.bay().routings.get(self.routing).map(|o| o.runs.as_slice());
                let on_port =
                    |run: &&crate::model::Run| run.from.port == *port || run.to.port == *port;
                let runs = runs.unwrap_or_default();
                let shown = runs.iter().find(|r| Some(&r.id) == self.selected.run.as_ref());
                shown.filter(on_port).or_else(|| runs.iter().find(on_port)).map(|r| r.id.clone())
            }
            _ => thing.run().map(str::to_owned),
        };
        if run.is_some() && run != self.selected.run {
            self.selected.run = run;
            self.selected.finding = None;
        }
        self.selected.things = vec![thing];
    }

    pub(super) fn look_away(&mut self) {
        self.selected.things.clear();
        self.selected.finding = None;
    }

    pub(super) fn fit_view(&mut self, view: super::canvas::camera::View) {
        if let Some(bounds) = self.solved.as_ref().and_then(|solved| solved.scene.bounds) {
            let area = self.canvas.areas[view.index()];
            self.canvas.look().fit_view(view, bounds, area);
        }
    }

    pub(super) fn look_at(&mut self, index: usize) {
        let Some(finding) = self.solved.as_ref().and_then(|s| s.answer.findings.get(index)) else {
            return;
        };
        let point = finding.point;
        match &finding.run {
            Some(run) => self.selected.run = Some(run.clone()),
            // It is about no hose: no card says it.
            None => self.listed = Listed::Findings,
        }
        self.selected.finding = Some(index);
        if let Some(point) = point {
            self.bring_into_sight(point);
        }
    }

    fn bring_into_sight(&mut self, point: glam::DVec3) {
        if !self.canvas.shows(point) {
            self.canvas.look().look_at(point);
        }
    }

    /// Selects a thing and brings it into sight.
    fn jump_to(&mut self, thing: Thing) {
        let point = self.document.as_ref().and_then(|d| thing.place(d.bay(), self.routing));
        let point = point.or_else(|| {
            let run = thing.run()?;
            let bay = self.document.as_ref()?.bay();
            let run = super::canvas::thing::find_run(bay, self.routing, run)?;
            Some((bay.port(&run.from.port)?.at + bay.port(&run.to.port)?.at) / 2.0)
        });
        self.select_thing(thing);
        if let Some(point) = point {
            self.bring_into_sight(point);
        }
    }

    /// Goes through the findings as they are listed, round and round.
    fn turn_findings(&mut self, forward: bool) {
        let listed = self.solved.as_ref().map(Solved::listed).unwrap_or_default();
        let count = listed.len();
        let at = self.selected.finding.and_then(|at| listed.iter().position(|index| *index == at));
        let next = match (at, forward) {
            _ if count == 0 => return,
            (Some(at), true) => (at + 1) % count,
            (Some(at), false) => (at + count - 1) % count,
            (None, true) => 0,
            (None, false) => count - 1,
        };
        self.look_at(listed[next]);
    }

    /// The innermost thing that is open is closed first.
    fn escape(&mut self) {
        if self.drag_abort() || self.drop_pull() || self.trouble.take().is_some() {
            return;
        }
        if self.over.routing_name.take().is_some() {
            return;
        }
        if self.renaming.take().is_some() || self.sketch.take().is_some() {
            return;
        }
        if self.path_box.is_some() || self.waiting.is_some() {
            self.cancel_path();
            return;
        }
        if self.unsaved.take().is_some() || self.notice.take().is_some() {
            return;
        }
        if self.background_escape() {
            return;
        }
        if self.tool != Tool::Select {
            self.take_tool(Tool::Select);
            return;
        }
        if self.measurement.take().is_some() || self.selected.finding.take().is_some() {
            return;
        }
        if std::mem::take(&mut self.selected.things).is_empty() {
            self.selected.run = None;
        }
    }

    pub(super) fn trouble(&mut self, title: impl Into<String>, lines: Vec<String>) {
        self.trouble = Some(Trouble {
            title: title.into(),
            lines,
            comfort: "Nothing was changed. What was open before is still open.",
        });
    }

    pub(super) fn say(&mut self, text: impl Into<String>) {
        self.notice = Some(Notice::new(text, None));
    }

    fn show_file(&mut self, path: &Path) {
        if let Err(why) = (self.services.show)(path) {
            self.trouble(format!("Cannot open {} from here", shown_path(path)), vec![why]);
        }
    }

    /// Tells the window system what has changed outside the drawing: the title, and leaving.
    pub(super) fn tell_window(&mut self, ctx: &Context) {
        let title = self.window_title();
        if title != self.title_shown {
            ctx.send_viewport_cmd(ViewportCommand::Title(title.clone()));
            self.title_shown = title;
        }
        if self.leaving && !std::mem::replace(&mut self.close_was_sent, true) {
            ctx.send_viewport_cmd(ViewportCommand::Close);
        }
    }

    fn window_title(&self) -> String {
        match &self.document {
            Some(document) => {
                let star = if document.is_changed() { "* " } else { "" };
                format!("{star}{} \u{2013} Hosewright", super::panels::bay_title(document))
            }
            None => "Hosewright".to_owned(),
        }
    }
}

/// The least that can be saved and opened again.
pub(super) fn new_bay() -> Bay {
    let routing = Routing { id: "a".into(), name: "First routing".into(), ..Routing::default() };
    Bay { title: "New bay".into(), routings: vec![routing], ..Bay::default() }
}

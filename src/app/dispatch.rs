//! The one place where what was asked for is carried out.

use eframe::egui::{Context, ViewportCommand};

use super::App;
use super::actions::{Act, Action, Appearance, Ask, Edit, Tool};
use super::files::{self, Wanted};
use super::finder::Finder;
use super::over::Page;
use super::unsaved::After;
use crate::app::canvas::gesture::Gesture;
use crate::document::Command;

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
            Action::ForgetRecent => self.files.recent.clear(),
            Action::SetUnits(unit) => self.change(&Command::SetUnits(unit)),
            Action::Change(command) => self.change(&command),
            Action::Pull(Some(command)) => self.work.preview(&command),
            Action::Pull(None) => self.work.commit(),
            Action::ShowRouting(routing) => self.work.show_routing(routing),
            Action::CompareRouting(id) => self.compare.toggle(&id),
            Action::Allow(allowances) => self.shopping.allowances = allowances,
            Action::SelectCompared(run) => self.work.select_compared(&run),
            Action::Move(moving) => self.work.canvas.moving = moving,
            Action::Appearance(appearance) => {
                self.settings.change_appearance(ctx, appearance);
            }
            Action::JumpTo(thing) => self.work.jump_to(thing),
            Action::NameRouting(id, name) => self.work.name_routing(&id, &name),
            Action::StopNamingRouting => self.work.naming = None,
            Action::Decide(decision) => {
                if let Some(leftover) = self.over.offer.decide(&mut self.work, decision) {
                    self.open_recovered(leftover);
                }
            }
            Action::SaveOver(answer) => {
                let after = self.files.save_over(&mut self.work, answer);
                self.go_on_with(after);
            }
            Action::StopOpening => self.files.stop_opening(&mut self.work),
            Action::WriteTemplate(true) => self.files.want_template(&mut self.work),
            Action::WriteTemplate(false) => self.files.stop_template(&mut self.work),
            Action::CloseFinder => self.over.finder = None,
            Action::ClosePage => self.over.page = None,
            Action::Select(thing) => self.work.select_thing(thing),
            Action::LookAway => self.work.look_away(),
            Action::LookAt(finding) => self.work.look_at(finding),
            Action::Pan { view, by } => self.work.canvas.look().pan(view, by),
            Action::Zoom { view, factor, area, at, anchor } => {
                self.work.canvas.look().zoom(view, factor, area, at, anchor);
            }
            Action::FitView(view) => self.work.fit_view(view),
            Action::SeeThrough(sees) => self.work.canvas.sees_through = sees,
            Action::Turn(deed) => {
                let bounds = self.work.solved.as_ref().and_then(|solved| solved.scene.bounds);
                self.work.canvas.turn(deed, bounds);
            }
            Action::Gesture(gesture) => self.gesture(&gesture),
            Action::Typed(typed) => self.hand.typed(&mut self.work, &typed),
            Action::TakeTool(tool) => self.hand.take_tool(&mut self.work, tool),
            Action::DrawAs(kind) => self.hand.obstacle_kind = kind,
            Action::Edit(edit) => self.hand.edit(&mut self.work, edit),
            Action::StripCursor(mm) => self.strip_cursor_mm = mm,
            Action::List(listed) => self.work.listed = listed,
            Action::Nudge { thing, view, by } => self.work.nudge(thing, view, by),
            Action::Dropped { files, on } => self.dropped(files, on),
            Action::Background(Act::Instead(id)) => {
                self.ask_near_the_bay(|near| Wanted::Instead { near, id });
            }
            Action::Background(act) => self.desk.act(&mut self.work, act),
            Action::Parts(act) => {
                if self.parts.act(&mut self.work, act) {
                    self.show_parts();
                }
            }
            Action::Unsaved(answer) => self.answer_unsaved(answer),
            Action::PathGiven(path) => {
                if let Some((wanted, path)) = self.files.path_given(&path) {
                    self.path_for(wanted, &path);
                }
            }
            Action::TypePath => self.files.type_path_instead(),
            Action::CancelPath => self.files.cancel_path(),
            Action::CloseTrouble => self.work.trouble = None,
            Action::CloseNotice => self.work.notice = None,
            Action::Show(path) => self.show_file(&path),
        }
        ctx.request_repaint();
    }

    /// Changes the bay; the units selected are those of the next new one too.
    fn change(&mut self, command: &Command) {
        if let Command::SetUnits(unit) = command {
            self.settings.settings.units = *unit;
            self.settings.write();
        }
        self.work.apply(command);
    }

    /// The requests that want the window itself; the others go to [`Self::ask`].
    fn ask_of_looks(&mut self, ctx: &Context, ask: Ask) {
        let settings = &mut self.settings;
        let said = match ask {
            Ask::TextLarger => settings.step_text(ctx, Some(true)),
            Ask::TextSmaller => settings.step_text(ctx, Some(false)),
            Ask::TextUsual => settings.step_text(ctx, None),
            Ask::HighContrast => {
                let high = !settings.settings.high_contrast;
                return settings.change_appearance(ctx, Appearance::HighContrast(high));
            }
            _ => return self.ask(ask),
        };
        self.work.say(said);
    }

    pub(super) fn ask(&mut self, ask: Ask) {
        if !self.seen().can(ask) {
            return;
        }
        match ask {
            Ask::New => self.unless_unsaved(After::New),
            Ask::Open => self.unless_unsaved(After::Open),
            Ask::Save => {
                let after = self.files.save(&mut self.work);
                self.go_on_with(after);
            }
            Ask::SaveAs => self.files.save_as(&mut self.work),
            Ask::Sheet
            | Ask::Labels
            | Ask::Template
            | Ask::Drawing
            | Ask::ComparePage
            | Ask::ShoppingCsv => {
                if let Some(wanted) = files::wanted(ask, &self.work) {
                    self.files.ask_for(wanted);
                }
            }
            Ask::Backgrounds => {
                let photos = !self.work.photos;
                self.close_panels();
                self.work.photos = photos;
            }
            Ask::AddBackground => self.ask_near_the_bay(|near| Wanted::Background { near }),
            Ask::ImportMesh => self.ask_near_the_bay(|near| Wanted::Mesh { near }),
            Ask::Quit => self.unless_unsaved(After::Quit),
            Ask::Undo => self.work.step(crate::document::Document::undo),
            Ask::Redo => self.work.step(crate::document::Document::redo),
            Ask::Fit => self.work.canvas.want_fit(),
            Ask::LinkViews => {
                let linked = self.work.canvas.cameras.linked();
                self.work.canvas.cameras.set_linked(!linked);
                self.settings.settings.views_linked = !linked;
            }
            Ask::NextFinding => self.work.turn_findings(true),
            Ask::PreviousFinding => self.work.turn_findings(false),
            Ask::NextRouting => {
                let count = self.work.bay().map_or(1, |bay| bay.routings.len().max(1));
                self.work.show_routing((self.work.routing + 1) % count);
            }
            Ask::ToolSelect => self.hand.take_tool(&mut self.work, Tool::Select),
            Ask::ToolPort => self.hand.take_tool(&mut self.work, Tool::Port),
            Ask::ToolHose => self.hand.take_tool(&mut self.work, Tool::Hose),
            Ask::ToolClamp => self.hand.take_tool(&mut self.work, Tool::Clamp),
            Ask::ToolObstacle => self.hand.take_tool(&mut self.work, Tool::Obstacle),
            Ask::ToolMeasure => self.hand.take_tool(&mut self.work, Tool::Measure),
            Ask::NewGroup => self.hand.edit(&mut self.work, Edit::NewGroup),
            Ask::Delete => self.hand.edit(&mut self.work, Edit::Delete),
            Ask::Duplicate => self.hand.edit(&mut self.work, Edit::Duplicate),
            Ask::MirrorCopy => self.hand.edit(&mut self.work, Edit::Mirror { copy: true }),
            Ask::Mirror => self.hand.edit(&mut self.work, Edit::Mirror { copy: false }),
            Ask::Rename => {
                if let Some(thing) = self.work.selected.thing().cloned() {
                    self.hand.edit(&mut self.work, Edit::Rename(thing));
                }
            }
            Ask::SelectAll => self.work.select_all(false),
            Ask::SelectKind => self.work.select_all(true),
            Ask::DuplicateRouting => self.work.duplicate_routing(),
            Ask::RenameRouting => self.work.begin_routing_name(),
            Ask::DeleteRouting => self.work.delete_routing(),
            Ask::RoutingEarlier => self.work.move_routing(false),
            Ask::RoutingLater => self.work.move_routing(true),
            Ask::Compare if self.compare.is_open => self.compare.close(&mut self.work),
            Ask::Compare => {
                self.close_panels();
                self.compare.open(&mut self.work);
            }
            Ask::Shopping => {
                let is_open = !self.shopping.is_open;
                self.close_panels();
                self.shopping.is_open = is_open;
            }
            Ask::Parts if self.parts.is_open => self.parts.is_open = false,
            Ask::Parts => self.show_parts(),
            Ask::PartsImport | Ask::PartsExport => self.ask_for_parts_table(ask),
            Ask::Finder => self.over.finder = Some(Finder::default()),
            Ask::Keys => self.over.page = Some(Page::Keys),
            Ask::About => self.over.page = Some(Page::About),
            // Done before.
            Ask::TextLarger | Ask::TextSmaller | Ask::TextUsual | Ask::HighContrast => {}
            Ask::View(pane) => self.work.canvas.panes.enlarge(pane),
            Ask::ShowView(pane) => {
                self.work.canvas.panes.toggle(pane);
                self.settings.settings.views = self.work.canvas.panes.names();
            }
            Ask::AllViews => {
                self.work.canvas.panes.show_all();
                self.settings.settings.views = None;
            }
            Ask::FitSelection => self.work.fit_selection(),
            Ask::ToggleGhost => self.work.toggle_ghost(),
            Ask::ToggleInstalled => self.work.canvas.installed = !self.work.canvas.installed,
            Ask::PlayMotion => self.work.play_motion(),
            Ask::Escape => self.escape(),
        }
    }

    fn ask_for_parts_table(&mut self, ask: Ask) {
        if ask == Ask::PartsImport {
            return self.ask_near_the_bay(|near| Wanted::PartsTable { near });
        }
        let near = self.work.folder().unwrap_or_default().join("parts.csv");
        self.files.ask_for(Wanted::PartsExport { near });
    }

    /// The parts library in the place of the other panels.
    fn show_parts(&mut self) {
        self.close_panels();
        self.parts.open();
    }

    /// What stands in the place of lists and card: one at a time.
    fn close_panels(&mut self) {
        self.compare.close(&mut self.work);
        self.work.photos = false;
        self.shopping.is_open = false;
        self.parts.is_open = false;
    }

    /// While points of a background are picked, the pointer picks.
    fn gesture(&mut self, gesture: &Gesture) {
        if self.work.document.is_none() {
            return;
        }
        self.work.canvas.active = gesture.view;
        if self.desk.picking.is_some() {
            self.desk.pick_by(&mut self.work, gesture);
        } else {
            self.hand.gesture(&mut self.work, gesture);
        }
    }

    /// The innermost thing that is open is closed first.
    fn escape(&mut self) {
        if self.work.drag_abort()
            || self.desk.drop_pull(&mut self.work)
            || self.work.trouble.take().is_some()
        {
            return;
        }
        if self.work.naming.take().is_some() {
            return;
        }
        if self.hand.renaming.take().is_some() || self.work.sketch.take().is_some() {
            return;
        }
        if self.files.path_box.is_some() || self.files.waiting.is_some() {
            self.files.cancel_path();
            return;
        }
        if self.files.unsaved.take().is_some() || self.work.notice.take().is_some() {
            return;
        }
        if self.desk.escape(&mut self.work) {
            return;
        }
        if self.hand.tool != Tool::Select {
            self.hand.take_tool(&mut self.work, Tool::Select);
            return;
        }
        if self.hand.measurement.take().is_some() || self.work.selected.finding.take().is_some() {
            return;
        }
        if std::mem::take(&mut self.work.selected.things).is_empty() {
            self.work.selected.run = None;
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
        match &self.work.document {
            Some(document) => {
                let star = if document.is_changed() { "* " } else { "" };
                format!("{star}{} \u{2013} Hosewright", super::panels::bay_title(document))
            }
            None => "Hosewright".to_owned(),
        }
    }
}

//! One frame: show what is, gather what is asked for, carry it out.

use eframe::egui::{
    self, CentralPanel, Context, Frame, Margin, Modal, Panel, Ui, UiBuilder, ViewportCommand,
};

use super::actions::{Action, Ask, Listed};
use super::canvas::{self, Looking, Open};
use super::key_focus::CLICK_FIRST;
use super::solved::Solved;
use super::{App, comfort, files, panels, shortcuts, theme, tools, unsaved};

impl eframe::App for App {
    fn logic(&mut self, ctx: &Context, _frame: &mut eframe::Frame) {
        if ctx.input(|i| i.viewport().close_requested()) && !self.leaving {
            ctx.send_viewport_cmd(ViewportCommand::CancelClose);
            self.dispatch(ctx, vec![Action::Ask(Ask::Quit)]);
        }
        if let Some((wanted, path)) = self.files.hear_dialog() {
            self.path_for(wanted, &path);
        }
        let opened = self.files.hear_opening(&mut self.work);
        self.show_opened(opened);
        self.files.hear_template(&mut self.work);
        self.recovery.keep_safe(&mut self.work, self.leaving, ctx);
        comfort::fit_text(ctx, &self.settings.settings);
        comfort::put_window_back(&mut self.over.to_place, ctx);
        self.settings.note_window(ctx);
        self.desk.tend(&mut self.work, ctx);
        self.tell_window(ctx);
    }

    fn on_exit(&mut self) {
        self.recovery.part(&self.work, self.leaving);
        self.settings.write();
    }

    fn ui(&mut self, ui: &mut Ui, _frame: &mut eframe::Frame) {
        let mut actions = Vec::new();
        if self.is_asking() {
            // A question on top keeps the keys to itself, but for letting go.
        } else {
            if self.work.drag.is_some() && !ui.ctx().text_edit_focused() {
                actions.extend(tools::typed_keys(ui).into_iter().map(Action::Typed));
            }
            shortcuts::pressed(ui, &mut actions);
            shortcuts::clipboard(ui, &mut actions);
            self.key_focus.listen(ui.ctx());
            if self.key_focus.hold_back(&mut actions) {
                self.work.say(CLICK_FIRST);
            }
        }
        self.listen(ui, &mut actions);
        // What was asked for by keys and pointer is done before anything is drawn: it shows at once.
        if !actions.is_empty() {
            let ctx = ui.ctx().clone();
            self.dispatch(&ctx, std::mem::take(&mut actions));
        }
        self.work.refresh();
        let run = self.work.selected.run.as_deref();
        let answer = self.work.solved.as_ref().and_then(Solved::settled);
        let (revision, wake) = (self.work.revision(), &self.wake);
        self.advice.follow(revision, answer, run, wake);
        self.compare.follow(self.work.document.as_ref(), answer, wake);
        self.shopping.follow(revision, answer, self.work.routing, wake);
        self.show(ui, &mut actions);
        self.desk.show_question(&self.work, ui, &mut actions);
        self.show_questions(ui, &mut actions);
        self.work.hear_drops(ui, &mut actions);
        let ctx = ui.ctx().clone();
        if !actions.is_empty() {
            let before = self.work.revision();
            self.dispatch(&ctx, actions);
            if self.work.revision() != before {
                ctx.request_discard("what was changed by a field or a button shows at once");
            }
        }
        self.tell_window(&ctx);
    }
}

/// The hint in an empty list takes as much as so many hoses.
const LINES_OF_THE_HINT: usize = 6;
/// From this height of the window on, points, there is room for more of the list of hoses.
const TALL: f32 = 1200.0;

impl App {
    fn is_asking(&self) -> bool {
        self.files.asks()
            || self.work.trouble.is_some()
            || self.hand.renaming.is_some()
            || self.desk.asks()
            || self.over.is_open()
    }

    /// What the pointer does in the views.
    fn listen(&mut self, ui: &Ui, actions: &mut Vec<Action>) {
        let Some(solved) = &self.work.solved else { return };
        let open =
            Open { run: self.work.selected.run.as_deref(), finding: self.work.selected.finding };
        let is_moving = self.work.drag.is_some() || self.work.sketch.is_some();
        canvas::listen(ui, &mut self.work.canvas, &solved.scene, open, is_moving, actions);
    }

    fn show(&mut self, ui: &mut Ui, actions: &mut Vec<Action>) {
        let colours = theme::palette(ui);
        let paper = Frame::new().fill(colours.paper);
        let bar = paper.inner_margin(Margin::symmetric(16, 8));
        let (mut naming, mut notice) = (self.work.naming.take(), self.work.notice.take());
        Panel::top("top bar").frame(bar).show(ui, |ui| {
            panels::top_bar(ui, &self.seen(), &mut naming, &mut notice, actions);
        });
        (self.work.naming, self.work.notice) = (naming, notice);
        if self.work.document.is_none() {
            CentralPanel::default().frame(paper).show(ui, |ui| {
                panels::invitation(ui, &self.seen(), actions);
            });
            return;
        }
        let palette = paper.inner_margin(Margin { left: 5, right: 0, top: 8, bottom: 12 });
        Panel::left("tools")
            .frame(palette)
            .exact_size(104.0)
            .resizable(false)
            .show_separator_line(false)
            .show(ui, |ui| panels::tools(ui, &self.seen(), actions));
        let window = ui.ctx().content_rect().size();
        let card_width = if self.compare.is_open || self.shopping.is_open || self.parts.is_open {
            (window.x * 0.4).clamp(420.0, 680.0)
        } else {
            (window.x * 0.25).clamp(300.0, 420.0)
        };
        let side = paper.inner_margin(Margin { left: 0, right: 12, top: 8, bottom: 12 });
        Panel::right("card")
            .frame(side)
            .exact_size(card_width)
            .resizable(false)
            .show_separator_line(false)
            .show(ui, |ui| {
                if self.compare.is_open {
                    panels::compare(ui, &self.seen(), actions);
                } else if self.shopping.is_open {
                    panels::shopping(ui, &self.seen(), actions);
                } else if self.parts.is_open {
                    panels::parts(ui, &self.seen(), actions);
                } else if self.work.photos {
                    self.desk.show_panel(&self.work, ui, actions);
                } else {
                    self.show_lists(ui, actions);
                }
            });
        let strip_height = panels::bench_height(window.y);
        let strip = paper.inner_margin(Margin { left: 12, right: 8, top: 0, bottom: 12 });
        Panel::bottom("bench")
            .frame(strip)
            .exact_size(strip_height)
            .show_separator_line(false)
            .show(ui, |ui| {
                self.key_focus.show_strip(ui.max_rect());
                self.work.canvas.on_strip = panels::bench(ui, &self.seen(), actions);
            });
        let board = paper.inner_margin(Margin { left: 12, right: 8, top: 8, bottom: 8 });
        CentralPanel::default().frame(board).show(ui, |ui| self.show_board(ui, actions));
    }

    fn show_board(&mut self, ui: &mut Ui, actions: &mut Vec<Action>) {
        let advice = self.desk.picking_advice(&self.work, ui.ctx());
        let figures = advice.or_else(|| self.work.riding_figures());
        let (Some(document), Some(solved)) = (&self.work.document, &self.work.solved) else {
            return;
        };
        self.work.canvas.prepare(&solved.scene);
        let looking = Looking {
            scene: &solved.scene,
            bay: document.bay(),
            routing: self.work.routing,
            run: self.work.selected.run.as_deref(),
            finding: self.work.selected.finding,
            speaking: self.work.selected.speaking(solved),
            selected: &self.work.selected.things,
            fresh: &self.work.selected.fresh,
            tool: self.hand.tool,
            drag: self.work.drag.as_ref(),
            sketch: self.work.sketch.as_ref(),
            measurement: self.hand.measurement,
            figures,
            under: self.desk.under(self.work.photos, document),
            positions: solved.positions(),
        };
        let board = ui.max_rect();
        self.key_focus.show_views(board);
        canvas::show(ui, &mut self.work.canvas, board, &looking, actions);
    }

    /// The hoses above, the card of the selected one below.
    fn show_lists(&self, ui: &mut Ui, actions: &mut Vec<Action>) {
        const GAP: f32 = 8.0;
        let whole = ui.available_rect_before_wrap();
        let window_height = ui.ctx().content_rect().height();
        let height = self.hoses_height(whole.height(), window_height);
        let (above, below) = whole.split_top_bottom_at_y(whole.min.y + height);
        let place = |name, rect| UiBuilder::new().id_salt(name).max_rect(rect);
        ui.scope_builder(place("hoses", above), |ui| panels::hoses(ui, &self.seen(), actions));
        let below = below.with_min_y(below.min.y + GAP);
        ui.scope_builder(place("card", below), |ui| panels::card(ui, &self.seen(), actions));
    }

    /// As high as its lines, but never more than a third, or four tenths of a tall window; half where it
    /// lists findings.
    fn hoses_height(&self, height: f32, window_height: f32) -> f32 {
        if self.work.listed == Listed::Findings {
            return (height / 2.0).round();
        }
        let lines = self.work.routing_in_view();
        let lines = lines.map_or(0, |routing| match routing.runs.len() {
            0 => LINES_OF_THE_HINT,
            runs => runs.max(2),
        });
        let most = if window_height < TALL { height / 3.0 } else { height * 0.4 };
        panels::hoses_height(lines, window_height).min(most).round()
    }

    fn show_questions(&mut self, ui: &mut Ui, actions: &mut Vec<Action>) {
        if let Some(path_box) = &mut self.files.path_box {
            files::show_path_box(ui, path_box, actions);
        } else if self.files.waiting.is_some() {
            files::show_waiting(ui, actions);
        } else if self.files.unsaved.is_some() {
            let title = self.work.document.as_ref().map(panels::bay_title).unwrap_or_default();
            unsaved::show(ui, &title, actions);
        }
        let mut finder = self.over.finder.take();
        self.over.show(&self.seen(), &self.files, finder.as_mut(), ui, actions);
        self.over.finder = finder;
        if let Some((thing, name)) = &mut self.hand.renaming {
            panels::rename(ui, thing, name, actions);
        }
        if let Some(trouble) = &self.work.trouble {
            let modal = Modal::new(egui::Id::unique("trouble"));
            let modal = modal.show(ui, |ui| panels::trouble(ui, trouble, actions));
            if modal.should_close() {
                actions.push(Action::CloseTrouble);
            }
        }
    }
}

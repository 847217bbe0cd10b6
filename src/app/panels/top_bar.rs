//! Title and file on the left, options in the middle, unit and length sheet on the right.

use eframe::egui::{
    Align, Align2, Area, Button, Frame, Id, Layout, RichText, ThemePreference, Ui,
    containers::menu::MenuButton,
};

use super::{ask_button, bay_title, hint, soft};
use crate::app::App;
use crate::app::actions::{Action, Ask};
use crate::app::samples::SAMPLES;
use crate::app::theme::{self, Palette, size};
use crate::app::words;
use crate::document::History;
use crate::units::LengthUnit;

pub(in crate::app) fn top_bar(ui: &mut Ui, app: &App, actions: &mut Vec<Action>) {
    let colours = theme::palette(ui);
    ui.horizontal(|ui| {
        ui.set_min_height(32.0);
        bay_menu(ui, app, actions);
        if let Some(document) = app.document() {
            let title = RichText::new(bay_title(document)).size(size::HEADING);
            ui.add(eframe::egui::Label::new(title).truncate());
            ui.label(soft(file_state(app), colours));
            history(ui, app, actions);
        }
        ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
            if app.document().is_some() {
                sheet_button(ui, app, colours, actions);
                ui.add_space(8.0);
            }
            theme_menu(ui, actions);
            if app.document().is_some() {
                units(ui, app, actions);
                ui.add_space(8.0);
                options(ui, app, actions);
            }
        });
    });
    notice(ui, app, actions);
}

fn bay_menu(ui: &mut Ui, app: &App, actions: &mut Vec<Action>) {
    MenuButton::new("Bay").ui(ui, |ui| {
        ui.set_min_width(230.0);
        for ask in [Ask::New, Ask::Open] {
            entry(ui, app, ask, ask.spec().text, actions);
        }
        let recent = app.services.recent.paths();
        ui.add_enabled_ui(!recent.is_empty(), |ui| {
            ui.menu_button("Open recent", |ui| {
                for path in recent {
                    if ui.button(short(path)).on_hover_text(path.display().to_string()).clicked() {
                        actions.push(Action::OpenPath(path.clone()));
                        ui.close();
                    }
                }
                ui.separator();
                if ui.button("Forget these").clicked() {
                    actions.push(Action::ForgetRecent);
                    ui.close();
                }
            });
        });
        if !SAMPLES.is_empty() {
            ui.menu_button("Open a sample", |ui| {
                for (index, sample) in SAMPLES.iter().enumerate() {
                    if ui.button(sample.name).on_hover_text(sample.about).clicked() {
                        actions.push(Action::OpenDemo(index));
                        ui.close();
                    }
                }
            });
        }
        ui.separator();
        for ask in [Ask::Save, Ask::SaveAs, Ask::Sheet] {
            entry(ui, app, ask, ask.spec().text, actions);
        }
        ui.separator();
        for ask in [Ask::AddUnderlay, Ask::ImportMesh] {
            entry(ui, app, ask, ask.spec().text, actions);
        }
        ui.separator();
        let history = app.document().map(crate::document::Document::history);
        for (ask, word, step) in [
            (Ask::Undo, "Undo", history.and_then(History::undo_label)),
            (Ask::Redo, "Redo", history.and_then(History::redo_label)),
        ] {
            entry(ui, app, ask, &named(word, step), actions);
        }
        ui.separator();
        for ask in [Ask::NextFinding, Ask::NextOption] {
            entry(ui, app, ask, ask.spec().text, actions);
        }
        ui.separator();
        entry(ui, app, Ask::Quit, Ask::Quit.spec().text, actions);
    });
}

fn entry(ui: &mut Ui, app: &App, ask: Ask, text: &str, actions: &mut Vec<Action>) {
    let keys = ask.spec().keys.first().map(|key| ui.ctx().format_shortcut(key));
    let button = Button::new(text).shortcut_text(keys.unwrap_or_default());
    if ui.add_enabled(app.can(ask), button).on_hover_text(ask.spec().tooltip).clicked() {
        actions.push(Action::Ask(ask));
        ui.close();
    }
}

/// "Undo move corner".
fn named(word: &str, step: Option<&str>) -> String {
    step.map_or_else(|| word.to_owned(), |step| format!("{word} {}", lower_first(step)))
}

fn lower_first(text: &str) -> String {
    let mut chars = text.chars();
    chars.next().map_or_else(String::new, |first| first.to_lowercase().chain(chars).collect())
}

/// A path by its file and folder.
pub(super) fn short(path: &std::path::Path) -> String {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    match path.parent().and_then(std::path::Path::file_name) {
        Some(folder) => format!("{name}  in {}", folder.to_string_lossy()),
        None => name.into_owned(),
    }
}

fn file_state(app: &App) -> &'static str {
    match app.document() {
        Some(document) if document.is_changed() => "not saved",
        Some(document) if document.path().is_none() => "no file yet",
        Some(_) => "saved",
        None => "",
    }
}

fn history(ui: &mut Ui, app: &App, actions: &mut Vec<Action>) {
    for (ask, step) in [
        (Ask::Undo, app.document().and_then(|d| d.history().undo_label())),
        (Ask::Redo, app.document().and_then(|d| d.history().redo_label())),
    ] {
        let word = ask.spec().text;
        let tip = step.map_or_else(
            || hint(ui, ask),
            |_| {
                let key = ask.spec().keys.first().map(|key| ui.ctx().format_shortcut(key));
                format!("{} ({})", named(word, step), key.unwrap_or_default())
            },
        );
        let button = ui.add_enabled(app.can(ask), Button::new(word));
        if button.on_hover_text(&tip).on_disabled_hover_text(hint(ui, ask)).clicked() {
            actions.push(Action::Ask(ask));
        }
    }
}

/// What was just done, in the lower corner of the window until it is dismissed.
fn notice(ui: &mut Ui, app: &App, actions: &mut Vec<Action>) {
    let Some(notice) = &app.notice else { return };
    let colours = theme::palette(ui);
    let place = Area::new(Id::unique("notice")).anchor(Align2::LEFT_BOTTOM, [28.0, -28.0]);
    place.show(ui, |ui| {
        Frame::popup(ui.style()).show(ui, |ui| {
            ui.horizontal(|ui| {
                ui.label(RichText::new(&notice.text).color(colours.good).size(size::SMALL));
                if let Some(file) = &notice.file {
                    let open = ui.link(RichText::new("Open").size(size::SMALL));
                    if open.on_hover_text(file.display().to_string()).clicked() {
                        actions.push(Action::Show(file.clone()));
                    }
                }
                if ui.link(RichText::new("Dismiss").size(size::SMALL)).clicked() {
                    actions.push(Action::CloseNotice);
                }
            });
        });
    });
}

fn options(ui: &mut Ui, app: &App, actions: &mut Vec<Action>) {
    let Some(document) = app.document() else { return };
    let options = &document.bay().options;
    if options.len() < 2 {
        return;
    }
    let room = ui.ctx().content_rect().width() - 900.0;
    let most = (room / 9.0 / options.len() as f32).clamp(6.0, 56.0) as usize;
    // Right to left: the last comes first.
    for (index, option) in options.iter().enumerate().rev() {
        let name = if option.name.is_empty() { &option.id } else { &option.name };
        let chosen = index == app.option();
        let letter = words::option_letter(index);
        let button =
            Button::selectable(chosen, format!("{letter}  {}", words::at_most(name, most)))
                .frame_when_inactive(true);
        let tip = format!("{name}. {}", hint(ui, Ask::NextOption));
        if ui.add(button).on_hover_text(tip).clicked() {
            actions.push(Action::ShowOption(index));
        }
    }
}

fn units(ui: &mut Ui, app: &App, actions: &mut Vec<Action>) {
    let Some(document) = app.document() else { return };
    for (unit, word, what) in
        [(LengthUnit::Mm, "mm", "millimetres"), (LengthUnit::Inch, "inch", "inches")]
    {
        let chosen = document.bay().show_units == unit;
        let button = Button::selectable(chosen, word);
        let tip = format!("Show lengths in {what}; what is stored stays in millimetres");
        if ui.add(button).on_hover_text(tip).clicked() && !chosen {
            actions.push(Action::SetUnits(unit));
        }
    }
}

fn theme_menu(ui: &mut Ui, actions: &mut Vec<Action>) {
    let now = ui.ctx().options(|options| options.theme_preference);
    MenuButton::new("Look").ui(ui, |ui| {
        for (theme, word) in [
            (ThemePreference::System, "As the system"),
            (ThemePreference::Light, "Light"),
            (ThemePreference::Dark, "Dark"),
        ] {
            if ui.radio(now == theme, word).clicked() {
                actions.push(Action::SetTheme(theme));
                ui.close();
            }
        }
    });
}

fn sheet_button(ui: &mut Ui, app: &App, colours: &Palette, actions: &mut Vec<Action>) {
    if !app.can(Ask::Sheet) {
        ask_button(ui, Ask::Sheet, false, actions);
        return;
    }
    let text = RichText::new(Ask::Sheet.spec().text).color(colours.on_accent);
    let button = Button::new(text).fill(colours.accent);
    if ui.add(button).on_hover_text(hint(ui, Ask::Sheet)).clicked() {
        actions.push(Action::Ask(Ask::Sheet));
    }
}

//! The settings put into force: look, contrast, size of text, the place of the window.

use eframe::egui::{Context, Pos2, Rect, ThemePreference, Vec2, ViewportBuilder, ViewportCommand};

use super::settings::{Look, Placed, Settings, Store, TEXT_PERCENT, TEXT_STEP};
use super::theme;
use crate::app::actions::Appearance;

/// A size to begin with, and the least that everything has room in.
const FIRST_SIZE: Vec2 = Vec2::new(1366.0, 768.0);
const LEAST_SIZE: Vec2 = Vec2::new(900.0, 560.0);
/// The least that everything has room in, points: larger text is held back in a small window.
const LEAST_POINTS: Vec2 = Vec2::new(860.0, 500.0);

/// The window as it was when it was closed.
pub(super) fn viewport(settings: &Settings) -> ViewportBuilder {
    let placed = settings.window;
    let size = placed.map_or(FIRST_SIZE, |placed| Vec2::from(placed.size).max(LEAST_SIZE));
    ViewportBuilder::default()
        .with_inner_size(size)
        .with_min_inner_size(LEAST_SIZE)
        .with_maximized(placed.is_some_and(|placed| placed.maximised))
}

/// Puts look, contrast and size of text into force.
pub fn dress(ctx: &Context, settings: &Settings) {
    ctx.set_theme(match settings.look {
        Look::System => ThemePreference::System,
        Look::Light => ThemePreference::Light,
        Look::Dark => ThemePreference::Dark,
    });
    theme::set_high_contrast(ctx, settings.high_contrast);
}

/// Text as large as asked for, or as the window has room for.
pub(super) fn fit_text(ctx: &Context, settings: &Settings) {
    let window = ctx.content_rect().size() * ctx.zoom_factor();
    let zoom = zoom_that_fits(window, settings.text_percent as f32 / 100.0);
    if (zoom - ctx.zoom_factor()).abs() > 1e-3 {
        ctx.set_zoom_factor(zoom);
    }
}

/// The part of `wanted`, 1 for the usual size, that a window of this size has room for.
pub fn zoom_that_fits(window: Vec2, wanted: f32) -> f32 {
    let room = (window / LEAST_POINTS).min_elem();
    let least = TEXT_PERCENT[0] as f32 / 100.0;
    wanted.min(room).max(least)
}

impl Store {
    pub(super) fn change_appearance(&mut self, ctx: &Context, appearance: Appearance) {
        let settings = &mut self.settings;
        let [least, most] = TEXT_PERCENT;
        match appearance {
            Appearance::Look(look) => settings.look = look,
            Appearance::HighContrast(high) => settings.high_contrast = high,
            Appearance::TextPercent(percent) => settings.text_percent = percent.clamp(least, most),
        }
        dress(ctx, settings);
        self.write();
    }

    /// Larger or smaller text by one step; none for the usual size. Says what came of it.
    pub(super) fn step_text(&mut self, ctx: &Context, larger: Option<bool>) -> String {
        let now = self.settings.text_percent;
        let percent = match larger {
            Some(true) => now.saturating_add(TEXT_STEP),
            Some(false) => now.saturating_sub(TEXT_STEP),
            None => 100,
        };
        self.change_appearance(ctx, Appearance::TextPercent(percent));
        let percent = self.settings.text_percent;
        let window = ctx.content_rect().size() * ctx.zoom_factor();
        let held = 100.0 * zoom_that_fits(window, percent as f32 / 100.0);
        if held + 0.5 < percent as f32 {
            format!("Text at {percent} %, held at {held:.0} %: this window has room for no more")
        } else {
            format!("Text at {percent} %")
        }
    }

    /// Notes where the window is, to open there again.
    pub(super) fn note_window(&mut self, ctx: &Context) {
        // The points of the window, which grow with the text, in those of the desktop.
        let zoom = ctx.zoom_factor();
        let placed = ctx.input(|input| {
            let about = input.viewport();
            let size = about.inner_rect?.size() * zoom;
            let at = about.outer_rect.map(|rect| (rect.min.to_vec2() * zoom).into());
            let maximised = about.maximized.or(about.fullscreen).unwrap_or(false);
            Some(Placed { size: size.into(), at, maximised })
        });
        let window = &mut self.settings.window;
        match (placed, &window) {
            // What the window goes back to from filling the screen.
            (Some(now), Some(before)) if now.maximised => {
                *window = Some(Placed { maximised: true, ..*before });
            }
            (Some(now), _) if now.size[0] >= 100.0 && now.size[1] >= 100.0 => *window = Some(now),
            _ => {}
        }
    }
}

/// Puts the window where it was, if it is still to be seen there: a screen may be gone.
pub(super) fn put_window_back(to_place: &mut Option<Placed>, ctx: &Context) {
    let Some(placed) = *to_place else { return };
    let Some(screen) = ctx.input(|input| input.viewport().monitor_size) else { return };
    *to_place = None;
    let zoom = ctx.zoom_factor();
    let (Some(at), false) = (placed.at, placed.maximised) else { return };
    let place = Rect::from_min_size(Pos2::from(at), Vec2::from(placed.size));
    // A few points for the frame that the desktop puts round it.
    let screen = Rect::from_min_size(Pos2::ZERO, screen * zoom).expand(8.0);
    if screen.contains_rect(place) {
        ctx.send_viewport_cmd(ViewportCommand::OuterPosition(
            (place.min.to_vec2() / zoom).to_pos2(),
        ));
    }
}

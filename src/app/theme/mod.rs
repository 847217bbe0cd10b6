//! Colours, fonts and sizes. Nothing else in the program names a colour.

mod colours;
mod fonts;
pub mod icons;

pub use colours::{DARK, HIGH_DARK, HIGH_LIGHT, LIGHT, Palette, in_light, palette};

use std::sync::Arc;

use eframe::egui::text::{LayoutJob, TextWrapping};
use eframe::egui::{
    self, Color32, Context, CornerRadius, FontFamily, FontId, Galley, Margin, Painter, Stroke,
    TextStyle, Theme, vec2,
};

/// Sizes of text, points.
pub mod size {
    /// Fine print.
    pub const SMALL: f32 = 12.0;
    /// Running text.
    pub const GROUP: f32 = 13.5;
    /// Headings.
    pub const HEADING: f32 = 17.0;
    /// The cut length.
    pub const HERO: f32 = 40.0;
    /// The cut length where the window is small.
    pub const HERO_SMALL: f32 = 32.0;
}

/// The one proportional font at a size.
pub fn font(size: f32) -> FontId {
    FontId::new(size, FontFamily::Proportional)
}

/// One line of text that ends in "\u{2026}" where it is wider than there is room.
pub fn one_line(painter: &Painter, text: &str, size: f32, ink: Color32, room: f32) -> Arc<Galley> {
    let mut job = LayoutJob::simple_singleline(text.to_owned(), font(size), ink);
    job.wrap = TextWrapping::truncate_at_width(room.max(0.0));
    painter.layout_job(job)
}

/// Puts fonts, colours and spacing in place, for light and dark.
pub fn install(ctx: &Context) {
    ctx.set_fonts(fonts::definitions());
    ctx.options_mut(|options| {
        options.fallback_theme = Theme::Light;
        options.zoom_with_keyboard = false;
        // Closing is asked for through the table of actions, which guards unsaved work.
        options.quit_shortcuts.clear();
    });
    // It looks at every point of every mesh in every frame; what is painted is in its view.
    ctx.tessellation_options_mut(|options| options.coarse_tessellation_culling = false);
    set_high_contrast(ctx, false);
}

/// Puts the usual colours or those of high contrast in place.
pub fn set_high_contrast(ctx: &Context, high: bool) {
    for theme in [Theme::Light, Theme::Dark] {
        ctx.style_mut_of(theme, |style| dress(style, colours::of(theme == Theme::Dark, high)));
    }
}

fn dress(style: &mut egui::Style, colours: &Palette) {
    style.text_styles = [
        (TextStyle::Small, font(size::SMALL)),
        (TextStyle::Body, font(size::GROUP)),
        (TextStyle::Button, font(size::GROUP)),
        (TextStyle::Heading, font(size::HEADING)),
        (TextStyle::Monospace, FontId::new(size::GROUP, FontFamily::Monospace)),
    ]
    .into();
    style.spacing.item_spacing = vec2(8.0, 6.0);
    style.spacing.button_padding = vec2(10.0, 5.0);
    style.spacing.interact_size.y = 26.0;
    style.spacing.menu_margin = Margin::same(6);
    style.spacing.window_margin = Margin::same(16);
    style.animation_time = 0.0;
    let visuals = &mut style.visuals;
    visuals.panel_fill = colours.paper;
    visuals.window_fill = colours.sheet;
    visuals.window_stroke = Stroke::new(1.0, colours.hairline);
    visuals.window_corner_radius = CornerRadius::same(6);
    visuals.menu_corner_radius = CornerRadius::same(5);
    visuals.extreme_bg_color = colours.sheet;
    visuals.faint_bg_color = colours.paper;
    visuals.hyperlink_color = colours.accent_text;
    visuals.error_fg_color = colours.fail;
    visuals.warn_fg_color = colours.warn;
    visuals.selection.bg_fill = colours.accent_faint;
    visuals.selection.stroke = Stroke::new(1.0, colours.accent_text);
    // A blinking cursor would keep the machine awake.
    visuals.text_cursor.blink = false;
    visuals.override_text_color = None;
    visuals.weak_text_color = Some(colours.soft);
    visuals.popup_shadow.color = colours.shadow;
    visuals.window_shadow.color = colours.shadow;
    let widgets = &mut visuals.widgets;
    for (state, fill, edge) in [
        (&mut widgets.noninteractive, colours.sheet, colours.hairline),
        (&mut widgets.inactive, colours.button, colours.hairline),
        (&mut widgets.hovered, colours.hover, colours.accent),
        (&mut widgets.active, colours.accent_faint, colours.accent),
        (&mut widgets.open, colours.hover, colours.hairline),
    ] {
        state.bg_fill = fill;
        state.weak_bg_fill = fill;
        state.bg_stroke = Stroke::new(1.0, edge);
        state.fg_stroke = Stroke::new(1.0, colours.ink);
        state.corner_radius = CornerRadius::same(4);
        state.expansion = 0.0;
    }
}

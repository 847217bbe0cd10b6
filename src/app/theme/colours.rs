//! The colours, light and dark. Blue and vermilion tell apart for colour-blind eyes; every state
//! has a shape and a word beside its colour.

use eframe::egui::{Color32, Ui};

/// Every colour of the window, by what it is for.
#[derive(Debug, Clone, Copy, PartialEq)]
#[allow(missing_docs, reason = "the names say it")]
pub struct Palette {
    pub paper: Color32,
    pub sheet: Color32,
    pub ink: Color32,
    pub soft: Color32,
    pub hairline: Color32,
    pub grid: Color32,
    pub grid_major: Color32,
    pub button: Color32,
    pub hover: Color32,
    pub accent: Color32,
    /// The accent where it is text on paper or sheet.
    pub accent_text: Color32,
    pub accent_faint: Color32,
    /// Text on the accent.
    pub on_accent: Color32,
    pub fail: Color32,
    pub fail_faint: Color32,
    pub warn: Color32,
    pub warn_faint: Color32,
    pub good: Color32,
    pub hose: Color32,
    pub hose_edge: Color32,
    pub socket: Color32,
    pub fitting: Color32,
    pub plain: Color32,
    pub plain_edge: Color32,
    pub hot: Color32,
    pub hot_edge: Color32,
    pub moving: Color32,
    pub moving_edge: Color32,
    pub sharp: Color32,
    pub sharp_edge: Color32,
    /// Another routing behind the one in view.
    pub ghost: Color32,
    /// The installed shape of a hose.
    pub installed: Color32,
    pub shadow: Color32,
}

const fn rgb(hex: u32) -> Color32 {
    Color32::from_rgb((hex >> 16) as u8, (hex >> 8 & 0xff) as u8, (hex & 0xff) as u8)
}

/// Paper and ink.
pub const LIGHT: Palette = Palette {
    paper: rgb(0x00F7_F5F0),
    sheet: rgb(0x00FF_FFFF),
    ink: rgb(0x0022_272B),
    soft: rgb(0x005F_676D),
    hairline: rgb(0x00D5_D2C8),
    grid: rgb(0x00F2_F0EA),
    grid_major: rgb(0x00E6_E3DA),
    button: rgb(0x00F7_F5F0),
    hover: rgb(0x00EC_F4F9),
    accent: rgb(0x0000_72B2),
    accent_text: rgb(0x0000_6AA6),
    accent_faint: rgb(0x00DC_EBF5),
    on_accent: rgb(0x00FF_FFFF),
    fail: rgb(0x00B9_3D0B),
    fail_faint: rgb(0x00FB_E4D6),
    warn: rgb(0x008A_5C00),
    warn_faint: rgb(0x00FA_F0CE),
    good: rgb(0x0000_735C),
    hose: rgb(0x008F_A3AD),
    hose_edge: rgb(0x003F_5560),
    socket: rgb(0x0034_424A),
    fitting: rgb(0x0059_6A74),
    plain: rgb(0x00E3_E0D6),
    plain_edge: rgb(0x00B9_B5A8),
    hot: rgb(0x00EF_C9B4),
    hot_edge: rgb(0x00C2_410C),
    moving: rgb(0x00D6_DFE6),
    moving_edge: rgb(0x004B_6B84),
    sharp: rgb(0x00E9_E2C4),
    sharp_edge: rgb(0x0086_6A14),
    ghost: rgb(0x00A3_8FB5),
    installed: rgb(0x00A8_437F),
    shadow: Color32::from_black_alpha(28),
};

/// The same by night.
pub const DARK: Palette = Palette {
    paper: rgb(0x0019_1D20),
    sheet: rgb(0x0020_262A),
    ink: rgb(0x00E8_E6E0),
    soft: rgb(0x009F_A9AF),
    hairline: rgb(0x0037_4046),
    grid: rgb(0x0025_2B2F),
    grid_major: rgb(0x002C_3338),
    button: rgb(0x0025_2B30),
    hover: rgb(0x002B_3840),
    accent: rgb(0x0056_B4E9),
    accent_text: rgb(0x0056_B4E9),
    accent_faint: rgb(0x0021_394A),
    on_accent: rgb(0x0011_1A20),
    fail: rgb(0x00FF_8A5B),
    fail_faint: rgb(0x0047_2A20),
    warn: rgb(0x00F0_C24B),
    warn_faint: rgb(0x003D_3419),
    good: rgb(0x004C_C9A6),
    hose: rgb(0x007C_93A0),
    hose_edge: rgb(0x00C3_D1D8),
    socket: rgb(0x00A9_BAC4),
    fitting: rgb(0x008B_9BA5),
    plain: rgb(0x0039_424A),
    plain_edge: rgb(0x006A_7782),
    hot: rgb(0x0058_3426),
    hot_edge: rgb(0x00FF_8A5B),
    moving: rgb(0x002C_3B47),
    moving_edge: rgb(0x0086_A9C4),
    sharp: rgb(0x0042_3C22),
    sharp_edge: rgb(0x00D9_B952),
    ghost: rgb(0x007D_6C92),
    installed: rgb(0x00E5_9AC4),
    shadow: Color32::from_black_alpha(96),
};

/// A surface under so much light, 0 to 1: darker in the shade, a little brighter in full light.
pub fn in_light(colour: Color32, light: f32) -> Color32 {
    let share = 0.62 + 0.46 * light;
    let channel = |value: u8| (f32::from(value) * share).min(255.0) as u8;
    Color32::from_rgb(channel(colour.r()), channel(colour.g()), channel(colour.b()))
}

/// Black on white, for eyes that want more contrast.
pub const HIGH_LIGHT: Palette = Palette {
    paper: rgb(0x00FF_FFFF),
    sheet: rgb(0x00FF_FFFF),
    ink: rgb(0x0000_0000),
    soft: rgb(0x0033_393E),
    hairline: rgb(0x0060_6468),
    grid: rgb(0x00E4_E4E4),
    grid_major: rgb(0x00C4_C4C4),
    button: rgb(0x00FF_FFFF),
    hover: rgb(0x00E6_F1FA),
    accent: rgb(0x0000_4A80),
    accent_text: rgb(0x0000_4A80),
    accent_faint: rgb(0x00DC_EBF8),
    on_accent: rgb(0x00FF_FFFF),
    fail: rgb(0x0082_1E00),
    fail_faint: rgb(0x00FF_EEE6),
    warn: rgb(0x005A_3C00),
    warn_faint: rgb(0x00FF_F6DC),
    good: rgb(0x0000_4A38),
    hose: rgb(0x0078_8A94),
    hose_edge: rgb(0x0000_0000),
    socket: rgb(0x0010_181C),
    fitting: rgb(0x002E_3A42),
    plain: rgb(0x00EA_EAEA),
    plain_edge: rgb(0x0060_6468),
    hot: rgb(0x00FF_E0D2),
    hot_edge: rgb(0x0082_1E00),
    moving: rgb(0x00DE_EAF4),
    moving_edge: rgb(0x0020_4A6A),
    sharp: rgb(0x00F6_EEC8),
    sharp_edge: rgb(0x005A_4400),
    ghost: rgb(0x006A_4A86),
    installed: rgb(0x008A_1F63),
    shadow: Color32::from_black_alpha(60),
};

/// White on black.
pub const HIGH_DARK: Palette = Palette {
    paper: rgb(0x0000_0000),
    sheet: rgb(0x0008_0A0C),
    ink: rgb(0x00FF_FFFF),
    soft: rgb(0x00D4_DADE),
    hairline: rgb(0x009A_A2A8),
    grid: rgb(0x001C_2023),
    grid_major: rgb(0x0034_3A3E),
    button: rgb(0x0008_0A0C),
    hover: rgb(0x0014_2A3A),
    accent: rgb(0x007C_CBFF),
    accent_text: rgb(0x007C_CBFF),
    accent_faint: rgb(0x0010_2C40),
    on_accent: rgb(0x0000_0000),
    fail: rgb(0x00FF_A684),
    fail_faint: rgb(0x0034_160A),
    warn: rgb(0x00FF_D868),
    warn_faint: rgb(0x002C_2206),
    good: rgb(0x006E_E6C4),
    hose: rgb(0x007C_93A0),
    hose_edge: rgb(0x00FF_FFFF),
    socket: rgb(0x00C8_D8E2),
    fitting: rgb(0x00A9_BAC4),
    plain: rgb(0x001E_2428),
    plain_edge: rgb(0x009A_A2A8),
    hot: rgb(0x003E_1C10),
    hot_edge: rgb(0x00FF_A684),
    moving: rgb(0x0016_2C3E),
    moving_edge: rgb(0x00A8_CEEC),
    sharp: rgb(0x002E_280E),
    sharp_edge: rgb(0x00F0_D468),
    ghost: rgb(0x00C6_A8E0),
    installed: rgb(0x00FF_B3DA),
    shadow: Color32::from_black_alpha(160),
};

/// The palette of a look.
pub(super) const fn of(dark: bool, high_contrast: bool) -> &'static Palette {
    match (dark, high_contrast) {
        (false, false) => &LIGHT,
        (true, false) => &DARK,
        (false, true) => &HIGH_LIGHT,
        (true, true) => &HIGH_DARK,
    }
}

/// The palette in force: the one whose paper the panels are made of.
pub fn palette(ui: &Ui) -> &'static Palette {
    let visuals = ui.visuals();
    let usual = of(visuals.dark_mode, false);
    if visuals.panel_fill == usual.paper { usual } else { of(visuals.dark_mode, true) }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance (published: W3C, Web Content Accessibility Guidelines 2.2, section 6).
    fn luminance(colour: Color32) -> f64 {
        let channel = |value: u8| {
            let c = f64::from(value) / 255.0;
            if c <= 0.04045 { c / 12.92 } else { ((c + 0.055) / 1.055).powf(2.4) }
        };
        0.2126 * channel(colour.r()) + 0.7152 * channel(colour.g()) + 0.0722 * channel(colour.b())
    }

    fn contrast(a: Color32, b: Color32) -> f64 {
        let (a, b) = (luminance(a), luminance(b));
        (a.max(b) + 0.05) / (a.min(b) + 0.05)
    }

    #[test]
    fn black_on_white_is_21_to_1() {
        assert!((contrast(Color32::BLACK, Color32::WHITE) - 21.0).abs() < 1e-9);
    }

    /// 4.5 : 1 for text (published: W3C WCAG 2.2, success criterion 1.4.3, level AA), and 7 : 1 in
    /// high contrast (1.4.6, level AAA).
    #[test]
    fn text_stands_out_from_what_it_is_on() {
        for (p, least) in [(LIGHT, 4.5), (DARK, 4.5), (HIGH_LIGHT, 7.0), (HIGH_DARK, 7.0)] {
            let texts = [("ink", p.ink), ("soft", p.soft), ("accent", p.accent_text)];
            let grounds = [
                ("paper", p.paper),
                ("sheet", p.sheet),
                ("faint", p.accent_faint),
                ("hover", p.hover),
            ];
            for (text, t) in texts {
                for (ground, g) in grounds {
                    let ratio = contrast(t, g);
                    assert!(ratio >= least, "{text} on {ground}: {ratio:.2}");
                }
            }
            let pairs = [
                ("fail on its card", p.fail, p.fail_faint),
                ("ink on fail", p.ink, p.fail_faint),
                ("soft on fail", p.soft, p.fail_faint),
                ("accent on fail", p.accent_text, p.fail_faint),
                ("warn on its card", p.warn, p.warn_faint),
                ("ink on warn", p.ink, p.warn_faint),
                ("soft on warn", p.soft, p.warn_faint),
                ("accent on warn", p.accent_text, p.warn_faint),
                ("fail on sheet", p.fail, p.sheet),
                ("warn on sheet", p.warn, p.sheet),
                ("good on sheet", p.good, p.sheet),
                ("fail on the selected row", p.fail, p.accent_faint),
                ("warn on the selected row", p.warn, p.accent_faint),
                ("good on the selected row", p.good, p.accent_faint),
                ("button", p.on_accent, p.accent),
                ("ink on a plain obstacle", p.ink, p.plain),
                ("ink on a hot obstacle", p.ink, p.hot),
                ("ink on a moving obstacle", p.ink, p.moving),
                ("ink on a sharp obstacle", p.ink, p.sharp),
            ];
            for (what, a, b) in pairs {
                let ratio = contrast(a, b);
                assert!(ratio >= least, "{what}: {ratio:.2}");
            }
        }
    }

    /// 3 : 1 for the edges of controls and for what the drawing says by lines (published: W3C WCAG
    /// 2.2, success criterion 1.4.11, level AA).
    #[test]
    fn in_high_contrast_edges_stand_out_too() {
        for p in [HIGH_LIGHT, HIGH_DARK] {
            for (what, edge, ground) in [
                ("edge of a control", p.hairline, p.sheet),
                ("edge of a control", p.hairline, p.paper),
                ("hose", p.hose_edge, p.sheet),
                ("hose", p.hose, p.sheet),
                ("socket", p.socket, p.sheet),
                ("fitting", p.fitting, p.sheet),
                ("plain obstacle", p.plain_edge, p.plain),
                ("hot obstacle", p.hot_edge, p.hot),
                ("moving obstacle", p.moving_edge, p.moving),
                ("sharp obstacle", p.sharp_edge, p.sharp),
            ] {
                let ratio = contrast(edge, ground);
                assert!(ratio >= 3.0, "{what}: {ratio:.2}");
            }
        }
    }

    #[test]
    fn every_palette_is_known_by_its_paper() {
        assert_ne!(LIGHT.paper, HIGH_LIGHT.paper);
        assert_ne!(DARK.paper, HIGH_DARK.paper);
    }
}

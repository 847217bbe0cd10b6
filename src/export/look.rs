//! How shades and line patterns come out on white paper, in every format alike.

use crate::drawing::{Dash, Shade};

/// Colours for white paper, red, green, blue; each differs from its neighbours in lightness too.
pub(super) fn rgb(shade: Shade) -> [u8; 3] {
    match shade {
        Shade::Ink => [0x22, 0x27, 0x2b],
        Shade::Soft => [0x5a, 0x62, 0x68],
        Shade::Hairline => [0xd5, 0xd2, 0xc8],
        Shade::Paper => [0xff, 0xff, 0xff],
        Shade::Obstacle => [0xf1, 0xef, 0xe9],
        Shade::Hose => [0xc3, 0xce, 0xd4],
        Shade::HoseEdge => [0x3f, 0x55, 0x60],
        Shade::Socket => [0x2b, 0x3a, 0x42],
        Shade::Accent => [0x00, 0x72, 0xb2],
        Shade::Fail => [0xb2, 0x3a, 0x08],
    }
}

/// Lengths drawn and left out in turn, mm; empty for an unbroken line.
pub(super) fn pattern_mm(dash: Dash) -> &'static [f64] {
    match dash {
        Dash::Obstacle => &[],
        Dash::Dashed => &[1.6, 0.9],
        Dash::Dotted => &[0.4, 0.7],
        Dash::DashDot => &[2.4, 0.7, 0.5, 0.7],
    }
}

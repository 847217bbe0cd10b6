//! Reusable 37° flare swivel ends for PTFE hose.

use crate::model::{Attachment, Construction, EndKind, Mark, Source};

use super::elbow::{self, SocketProportion, straight_and_elbows};

const SET_BACK: Source = Source::fixed(Mark::Published, "NAVEDTRA 14018, Table 5-2");
const SOCKET: Source =
    Source::fixed(Mark::Typical, "12 mm + 1.25 tube diameters; no published source");

/// The proportion that [`SOCKET`] names.
const SOCKET_PROPORTION: SocketProportion = SocketProportion { base_mm: 12.0, diameters: 1.25 };

/// Dash; set-back in, one straight end. NAVEDTRA 14018, Table 5-2.
const TABLE: [(u32, f64); 10] = [
    (3, 0.70),
    (4, 0.74),
    (5, 0.77),
    (6, 0.81),
    (8, 0.93),
    (10, 1.05),
    (12, 1.13),
    (16, 1.30),
    (20, 1.44),
    (24, 1.66),
];

pub(super) fn end() -> EndKind {
    EndKind {
        id: "flare-ptfe".to_owned(),
        name: "37° flare swivel, reusable, for PTFE hose".to_owned(),
        maker: None,
        for_construction: Some(Construction::PtfeBraid),
        attachment: Some(Attachment::ScrewOn),
        sizes: TABLE
            .iter()
            .flat_map(|(dash, set_back)| straight_and_elbows(*dash, *set_back, SOCKET_PROPORTION))
            .collect(),
        source_straight: SET_BACK,
        source_elbow: elbow::ELBOW,
        source_socket: SOCKET,
        extra: Vec::new(),
    }
}

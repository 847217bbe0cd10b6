//! Reusable 37° flare swivel ends for rubber hose with a wire braid (MS24587).

use crate::model::{Attachment, Construction, EndKind, Mark, Source};

use super::elbow::{self, SocketProportion, straight_and_elbows};

const SET_BACK: Source =
    Source::fixed(Mark::Published, "NAVEDTRA 14018, Table 5-2, MS24587 ends, columns as read");
const SOCKET: Source =
    Source::fixed(Mark::Typical, "15 mm + 1.5 tube diameters; no published source");

/// The proportion that [`SOCKET`] names.
const SOCKET_PROPORTION: SocketProportion = SocketProportion { base_mm: 15.0, diameters: 1.5 };

/// Dash; set-back in, one straight end. NAVEDTRA 14018, Table 5-2, columns as read.
const TABLE: [(u32, f64); 8] =
    [(3, 0.60), (4, 0.60), (5, 0.70), (6, 0.77), (8, 0.94), (10, 1.00), (12, 1.00), (16, 0.94)];

pub(super) fn end() -> EndKind {
    EndKind {
        id: "flare-rubber".to_owned(),
        name: "37° flare swivel, reusable, for rubber hose".to_owned(),
        maker: None,
        for_construction: Some(Construction::RubberBraid),
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

//! From the bytes of a file to a bay, or to all that is wrong with them.

pub(super) mod context;
pub(super) mod cursor;
pub(super) mod doubts;
pub(super) mod reference;
pub(super) mod unique;

use crate::model::{Bay, Stock};

use super::fault::{Faults, ReadError};
use super::faults_of::AnyMesh;
use super::json::{Json, Node, parse, quoted};
use super::mesh::MeshSource;
use super::mesh_limits::mesh_faults;
use super::things::Thing;
use super::{FORMAT, MAX_FILE_BYTES, PARTS_FORMAT, VERSION};

use context::Context;
use cursor::At;

/// Reads a bay file. Meshes that it names are asked of `meshes`.
///
/// # Errors
/// Everything that the contract refuses (§1), each fault with its place; see [`ReadError`].
pub fn read(bytes: &[u8], meshes: &dyn MeshSource) -> Result<Bay, ReadError> {
    if bytes.len() as u64 > MAX_FILE_BYTES {
        return Err(ReadError::TooLarge { limit: format!("{} MiB", MAX_FILE_BYTES >> 20) });
    }
    let root = parse(bytes)?;
    let cx = Context::new(meshes);
    let file = At::root(&root, &cx);
    let Some(bay) = read_as(&file, FORMAT, A_BAY) else {
        return Err(ReadError::Faults(Faults(cx.into_faults())));
    };
    cx.check_references(&bay, "this bay's stock");
    let mut faults = cx.into_faults();
    faults.extend(mesh_faults(&bay));
    match faults {
        faults if faults.is_empty() => Ok(bay),
        faults => Err(ReadError::Faults(Faults(faults))),
    }
}

const A_BAY: &str = "a bay: an object with \"format\", \"version\" and \"routings\"";
const PARTS: &str = "a parts library: an object with \"format\" and \"version\"";

/// Reads a parts library: the members of a bay's `stock`, with a format and a version of their own. Its
/// lengths may be of the hoses of `besides` too.
pub(super) fn read_stock(bytes: &[u8], besides: &Stock) -> Result<Stock, ReadError> {
    if bytes.len() as u64 > MAX_FILE_BYTES {
        return Err(ReadError::TooLarge { limit: format!("{} MiB", MAX_FILE_BYTES >> 20) });
    }
    let root = parse(bytes)?;
    let cx = Context::new(&AnyMesh);
    let file = At::root(&root, &cx);
    let stock: Option<Stock> = read_as(&file, PARTS_FORMAT, PARTS);
    if let Some(stock) = &stock {
        let mut all = stock.clone();
        all.hoses.extend(besides.hoses.iter().cloned());
        cx.check_references(&Bay { stock: all, ..Bay::default() }, "the parts library");
    }
    match (stock, cx.into_faults()) {
        (Some(stock), faults) if faults.is_empty() => Ok(stock),
        (_, faults) => Err(ReadError::Faults(Faults(faults))),
    }
}

/// What the file holds, with its faults in the context; none where it is of another format.
fn read_as<T: Thing>(file: &At<'_>, format: &str, what: &str) -> Option<T> {
    if !is_ours(file, format, what) {
        return None;
    }
    twice(file);
    let f = file.fields("");
    f.get("format", |_| ());
    f.get("version", |_| ());
    Some(T::read(&f))
}

/// Whether the file is of this format and of a version that this program may know. Where it is not, no other
/// fault is worth telling.
fn is_ours(file: &At<'_>, format: &str, what: &str) -> bool {
    let Json::Object(_) = &file.node.json else {
        file.wrong(what);
        return false;
    };
    match file.node.member("format").map(|node| &node.json) {
        Some(Json::Text(found)) if found == format => {}
        Some(_) => {
            file.fields("").get("format", |at| at.wrong(&quoted(format)));
            return false;
        }
        None => file.fields("").missing("format", &quoted(format)),
    }
    match file.node.member("version").and_then(Node::as_f64) {
        Some(version) if version > f64::from(VERSION) => {
            file.fields("").get("version", |at| {
                at.wrong_hint(
                    &VERSION.to_string(),
                    format!(
                        "this file is of version {version}; this program reads version {VERSION}: get a newer Hosewright"
                    ),
                );
            });
            false
        }
        Some(version) if version == f64::from(VERSION) => true,
        _ => {
            let fields = file.fields("");
            if fields.get("version", |at| at.wrong(&VERSION.to_string())).is_none() {
                fields.missing("version", &VERSION.to_string());
            }
            true
        }
    }
}

/// Finds fault with every key that stands twice in one object, at any depth.
fn twice(at: &At<'_>) {
    match &at.node.json {
        Json::List(items) => {
            for (index, item) in items.iter().enumerate() {
                twice(&at.item(index, item));
            }
        }
        Json::Object(entries) => {
            let mut seen = std::collections::BTreeSet::new();
            for (key, node) in entries {
                let member = at.member(key, node);
                if !seen.insert(key) {
                    member.fault(
                        format!("the key {} again", quoted(key)),
                        "each key once in an object",
                        None,
                    );
                }
                twice(&member);
            }
        }
        _ => {}
    }
}

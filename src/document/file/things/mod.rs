//! The things of a bay file, each with one table that serves reading, writing and the list of known
//! keys.
//!
//! A line of a table names a field of the model and the [key](keys) that it goes to: its name, its
//! [`kind`], whether it must be there, and what its absence says. The order of the lines is that of
//! the file. What holds between keys is checked after the table (`then`), where all is read.

mod background;
mod bay;
mod bench;
mod keys;
mod kind;
mod obstacle;
mod quantity;
mod route;
mod stock;

use super::read::cursor::{At, Fields, Kind};
use super::read::unique::Unique;
use super::write::tree::{Entries, Tree};

use kind::Words;
pub use quantity::MAX_BAY_MM;
pub use stock::stock_source;

/// What is an object of the file, or several members of one.
pub(crate) trait Thing: Sized {
    /// From the members of its object; where one is faulty, a stand-in.
    fn read(f: &Fields<'_>) -> Self;

    /// Its members, in the order of the file.
    fn write<'a>(&'a self, to: &mut Entries<'a>);
}

/// What is an item of a list.
trait Item: Sized {
    /// `object` says what is expected here.
    fn read_item(at: &At<'_>, object: &str, seen: &Unique) -> Self;

    fn tree(&self) -> Tree<'_>;
}

impl<T: Thing> Item for T {
    fn read_item(at: &At<'_>, object: &str, seen: &Unique) -> Self {
        let fields = at.fields(object);
        if !fields.is_object() {
            seen.doubt_ids(at.cx);
        }
        T::read(&fields.among(seen))
    }

    fn tree(&self) -> Tree<'_> {
        let mut to = Entries::default();
        self.write(&mut to);
        to.into()
    }
}

type Read<T> = fn(&Fields<'_>) -> T;

/// What comes in kinds, each with members of its own; its `kind` stands before them.
trait Kinds: Sized + 'static {
    /// How each kind is read, with its word in the file.
    const KINDS: &'static [(Read<Self>, &'static str)];

    /// What holds between the members, once they are read.
    const CHECK: fn(&Fields<'_>, &Self) = |_, _| {};

    fn word(&self) -> &'static str;

    fn write_members<'a>(&'a self, to: &mut Entries<'a>);
}

impl<T: Kinds> Thing for T {
    fn read(f: &Fields<'_>) -> Self {
        let Some(read) = f.must("kind", &Words(T::KINDS)) else {
            return T::KINDS[0].0(&f.at.mute());
        };
        let thing = read(f);
        T::CHECK(f, &thing);
        thing
    }

    fn write<'a>(&'a self, to: &mut Entries<'a>) {
        to.put("kind", self.word());
        self.write_members(to);
    }
}

/// The table of a thing. The compiler sees to it that no field of the model is left out.
macro_rules! thing {
    ($Thing:ident { $($field:ident: $key:expr),* $(,)? } $(then $check:expr)?) => {
        impl Thing for $Thing {
            fn read(f: &Fields<'_>) -> Self {
                $(let $field = $key.read(f);)*
                let thing = Self { $($field),* };
                $($check(f, &thing);)?
                thing
            }

            #[allow(clippy::needless_borrow, reason = "of fields that a line names; on reading they are values")]
            fn write<'a>(&'a self, to: &mut Entries<'a>) {
                let Self { $($field),* } = self;
                $($key.write($field, to);)*
            }
        }
    };
}

/// The tables of a thing that comes in kinds, one for each.
macro_rules! kinds {
    ($Thing:ident { $($word:literal: $Kind:ident $table:tt),* $(,)? } $(then $check:expr)?) => {
        impl Kinds for $Thing {
            const KINDS: &'static [(super::Read<Self>, &'static str)] =
                &[$((|f| of_kind!(read f $Kind $table), $word)),*];
            $(const CHECK: fn(&Fields<'_>, &Self) = $check;)?

            fn word(&self) -> &'static str {
                match self {
                    $(Self::$Kind { .. } => $word,)*
                }
            }

            #[allow(clippy::needless_borrow, reason = "as of a thing without kinds")]
            fn write_members<'a>(&'a self, to: &mut Entries<'a>) {
                let thing = self;
                $(of_kind!(write thing to $Kind $table);)*
            }
        }
    };
}

/// One kind: with a table in `{}`, or in `()` with the key of what it holds.
macro_rules! of_kind {
    (read $f:ident $Kind:ident { $($field:ident: $key:expr),* $(,)? }) => {{
        $(let $field = $key.read($f);)*
        Self::$Kind { $($field),* }
    }};
    (read $f:ident $Kind:ident ($key:expr)) => {
        Self::$Kind($key.read($f))
    };
    (write $thing:ident $to:ident $Kind:ident { $($field:ident: $key:expr),* $(,)? }) => {
        if let Self::$Kind { $($field),* } = $thing {
            $($key.write($field, $to);)*
        }
    };
    (write $thing:ident $to:ident $Kind:ident ($key:expr)) => {
        if let Self::$Kind(held) = $thing {
            $key.write(held, $to);
        }
    };
}

use {kinds, of_kind, thing};

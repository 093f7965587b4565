//! The macros by which one declaration makes a struct of fields, its field table, its reader and its overlay.
//!
//! Not here: any declaration (`elements`, `kinds`, `choices`).

/// Declares a struct whose members are all `Field<..>`.
///
/// `placed at` after the name adds a member `at` with the place of the table; `[required]` before a member marks it as one the element cannot do without; `= kind` after the type narrows
/// what is accepted.
macro_rules! element {
    (
        $(#[doc = $doc:literal])+
        $Name:ident $(placed $at:ident)? {
            $( $(#[doc = $field_doc:literal])+ $([$required:ident])? $field:ident : $Type:ty $(= $kind:expr)? ),* $(,)?
        }
    ) => {
        $(#[doc = $doc])+
        #[derive(Debug, Clone, Default, PartialEq)]
        pub struct $Name {
            $( $(#[doc = $field_doc])+ pub $field: $crate::place::Field<$Type>, )*
            $( /// Where its table begins.
            pub $at: $crate::place::Place, )?
        }

        impl $Name {
            /// What this is, as shown to people.
            pub const DOC: &'static str = concat!($($doc),+).trim_ascii();

            /// Every field, in the order forms show them.
            pub const FIELDS: &'static [$crate::schema::FieldSpec] = &[
                $( $crate::schema::FieldSpec {
                    name: stringify!($field),
                    doc: concat!($($field_doc),+).trim_ascii(),
                    value: $crate::define::value_kind!($Type $(, $kind)?),
                    required: $crate::define::is_required!($($required)?),
                }, )*
            ];

            #[allow(unused_variables, reason = "some kinds have no field of their own")]
            pub(crate) fn take(fields: &mut $crate::read::fields::Fields<'_, '_>) -> Self {
                Self { $( $field: fields.take::<$Type>(
                    stringify!($field),
                    const { &$crate::define::value_kind!($Type $(, $kind)?) },
                ), )* $( $at: fields.place(), )? }
            }

            /// These fields, and those of `base` where this one has none.
            #[must_use]
            #[allow(unused_variables, reason = "some kinds have no field of their own")]
            pub fn or(self, base: Self) -> Self {
                Self { $( $field: self.$field.or(base.$field), )* $( $at: self.$at, )? }
            }

            /// Calls `change` with the place of every field that is given.
            #[allow(dead_code, unused_variables, unused_mut, reason = "only parts are laid under items, and some kinds have no field")]
            pub(crate) fn each_place(&mut self, mut change: impl FnMut(&mut $crate::place::Place)) {
                $( if let Some(given) = &mut self.$field { change(&mut given.at); } )*
            }
        }
    };
}

/// The narrowed kind of a field, or the usual one of its type.
macro_rules! value_kind {
    ($Type:ty) => {
        <$Type as $crate::value::FieldValue>::KIND
    };
    ($Type:ty, $kind:expr) => {
        $kind
    };
}

macro_rules! is_required {
    () => {
        false
    };
    (required) => {
        true
    };
}

/// Declares every item kind: a struct each by [`element!`], `Kind`, `Spec` and the table `KINDS`.
macro_rules! kinds {
    ( $( $(#[doc = $doc:literal])+ $Kind:ident = $name:literal { $($body:tt)* } )* ) => {
        $( $crate::define::element! { $(#[doc = $doc])+ $Kind { $($body)* } } )*

        /// What an item is.
        #[derive(Debug, Clone, Copy, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum Kind {
            $( $(#[doc = $doc])+ $Kind, )*
            /// Not said, or not understood.
            #[default]
            Unknown,
        }

        impl Kind {
            /// Every kind that can be typed.
            pub const ALL: &'static [Kind] = &[$(Kind::$Kind),*];
            /// Every kind as typed.
            pub const NAMES: &'static [&'static str] = &[$($name),*];

            /// The kind as typed; `unknown` for [`Kind::Unknown`].
            pub const fn as_str(self) -> &'static str {
                match self { $( Kind::$Kind => $name, )* Kind::Unknown => "unknown" }
            }

            /// The kind typed `text`.
            pub fn parse(text: &str) -> Option<Self> {
                match text { $( $name => Some(Kind::$Kind), )* _ => None }
            }
        }

        /// An item's or part's own fields, by kind.
        #[allow(clippy::large_enum_variant, reason = "there is one for each item, read once")]
        #[derive(Debug, Clone, Default, PartialEq)]
        pub enum Spec {
            $( $(#[doc = $doc])+ $Kind($Kind), )*
            /// The kind is not said or not understood; nothing else was read.
            #[default]
            Unknown,
        }

        impl Spec {
            /// What the item is.
            pub const fn kind(&self) -> Kind {
                match self { $( Spec::$Kind(_) => Kind::$Kind, )* Spec::Unknown => Kind::Unknown }
            }

            pub(crate) fn take(kind: Kind, fields: &mut $crate::read::fields::Fields<'_, '_>) -> Self {
                match kind { $( Kind::$Kind => Spec::$Kind($Kind::take(fields)), )* Kind::Unknown => Spec::Unknown }
            }

            pub(crate) fn or_same_kind(self, base: Self) -> Self {
                match (self, base) {
                    $( (Spec::$Kind(own), Spec::$Kind(base)) => Spec::$Kind(own.or(base)), )*
                    (own, _) => own,
                }
            }

            pub(crate) fn each_place(&mut self, change: impl FnMut(&mut $crate::place::Place)) {
                match self { $( Spec::$Kind(own) => own.each_place(change), )* Spec::Unknown => {} }
            }
        }

        /// Every item kind with its fields.
        pub const KINDS: &[KindSpec] = &[
            $( KindSpec { kind: Kind::$Kind, name: $name, doc: $Kind::DOC, fields: $Kind::FIELDS }, )*
        ];
    };
}

/// Declares words to choose from: the enum, its texts and its reader.
macro_rules! choices {
    ( $( $(#[doc = $doc:literal])+ $Name:ident { $( $(#[doc = $word_doc:literal])+ $Word:ident = $text:literal ),* $(,)? } )* ) => { $(
        $(#[doc = $doc])+
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $Name { $( $(#[doc = $word_doc])+ $Word, )* }

        impl $Name {
            /// Every choice.
            pub const ALL: &'static [Self] = &[$(Self::$Word),*];
            /// Every choice as typed.
            pub const NAMES: &'static [&'static str] = &[$($text),*];

            /// The choice as typed.
            pub const fn as_str(self) -> &'static str {
                match self { $( Self::$Word => $text, )* }
            }

            /// The choice typed `text`.
            pub fn parse(text: &str) -> Option<Self> {
                match text { $( $text => Some(Self::$Word), )* _ => None }
            }
        }

        impl std::fmt::Display for $Name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.as_str())
            }
        }

        impl $crate::value::FieldValue for $Name {
            const KIND: $crate::schema::ValueKind = $crate::schema::ValueKind::Choice(Self::NAMES);

            fn read(node: &$crate::syntax::Node, _: &$crate::schema::ValueKind) -> Result<Self, $crate::value::Mismatch> {
                $crate::value::choice(node, Self::NAMES, Self::parse)
            }
        }
    )* };
}

pub(crate) use {choices, element, is_required, kinds, value_kind};

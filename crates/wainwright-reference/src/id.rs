//! The one macro for closed lists of ids that appear in data files and project files.

/// Makes an enum whose variants each have one id text.
macro_rules! ids {
    ($(#[$meta:meta])* $name:ident { $($(#[$doc:meta])* $variant:ident = $id:literal,)+ }) => {
        $(#[$meta])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name { $($(#[$doc])* $variant,)+ }

        impl $name {
            /// Every variant, in the order of declaration.
            pub const ALL: &'static [Self] = &[$(Self::$variant,)+];

            /// The id used in data files and project files.
            pub const fn id(self) -> &'static str {
                match self { $(Self::$variant => $id,)+ }
            }

            /// The variant with this id, if there is one.
            pub fn from_id(text: &str) -> Option<Self> {
                match text { $($id => Some(Self::$variant),)+ _ => None }
            }
        }

        impl std::fmt::Display for $name {
            fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
                f.write_str(self.id())
            }
        }
    };
}

pub(crate) use ids;

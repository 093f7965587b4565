//! Small projects for stories.
#![allow(dead_code, missing_docs, reason = "no story uses everything here")]

/// A battery with a thin wire, no fuse anywhere, and a load at its end: any
/// chafed spot sets it on fire.
pub const UNFUSED: &str = "\
# kept: first line
wainwright = 1

[project]
name = \"Unfused\"

[item.battery]
kind = \"battery\"
chemistry = \"lfp\"
cells = 4
capacity = \"100 Ah\"

[item.pump]            # from the old boat
kind = \"load\"
power = \"60 W\"

[wire.pump-plus]
from = \"battery.+\"
to = \"pump.+\"
size = \"16 AWG\"        # came with the pump
insulation = \"gpt\"
length = \"12 ft\"
runs = \"foam\"

[wire.pump-minus]
from = \"pump.-\"
to = \"battery.-\"
like = \"pump-plus\"

[state.night]
label = \"Night\"
battery = \"resting\"
on = [\"pump\"]
";

/// A text with one line nobody can read and one wire that ends nowhere.
pub const HALF_READABLE: &str = "\
wainwright = 1
[item.battery]
kind = \"battery\"
capacity = lots
[wire.a]
from = \"battery.+\"
to = \"nowhere.+\"
";

//! The fixed words of joints. What pipe, ends and parts there are is data; these are how the data speaks.

/// Makes an enum whose cases are words of the files and, by their place, codes of the image.
macro_rules! words {
    ($(#[$doc:meta])* $name:ident { $($(#[$case_doc:meta])* $case:ident = $word:literal,)+ }) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
        pub enum $name {
            $($(#[$case_doc])* $case,)+
        }

        impl $name {
            /// Every one with its word, in the order of the type.
            pub const WORDS: &'static [(&'static str, Self)] = &[$(($word, Self::$case)),+];
            /// Every one, in the order of the type.
            pub const ALL: &'static [Self] = &[$(Self::$case),+];

            /// The case of a code in the image; `None` for an unknown one.
            #[must_use]
            pub fn from_code(code: u8) -> Option<Self> {
                Self::ALL.get(usize::from(code)).copied()
            }

            /// The word for it in files and JSON.
            #[must_use]
            pub const fn key(self) -> &'static str {
                match self {
                    $(Self::$case => $word,)+
                }
            }
        }
    };
}

words! {
    /// Whether a joint end seals on a pipe, best first.
    Verdict {
        /// As sold, with ordinary make-up: lubricant, primer and cement, its own accessory pack.
        Fits = "fits",
        /// Something else must be ordered, cut or put in.
        FitsWith = "fits-with",
        /// Never bare: by a flange, thread or fused end put on this pipe.
        Adapter = "adapter",
        /// Could be, by someone qualified or by the owner.
        Refer = "refer",
        /// Never.
        No = "no",
    }
}

words! {
    /// How the end of the pipe looks.
    Form {
        /// Plain, with a bevel for a gasket.
        PlainBevelled = "plain-bevelled",
        /// Plain, cut square.
        PlainSquare = "plain-square",
        /// A bell.
        Belled = "belled",
        /// Grooved for a coupling.
        Grooved = "grooved",
        /// Threaded outside.
        Threaded = "threaded",
        /// With a flange.
        Flanged = "flanged",
    }
}

words! {
    /// What a reason is about.
    Kind {
        /// Diameters do not go together.
        Dimension = "dimension",
        /// Materials do not go together.
        Material = "material",
        /// The wall is too thin.
        Wall = "wall",
        /// It is not made in this size.
        Range = "range",
        /// The form of the end.
        Form = "form",
        /// What the pipe carries.
        Contents = "contents",
        /// Someone could be hurt.
        Hazard = "hazard",
    }
}

words! {
    /// What a joint end is for.
    Role {
        /// A fitting or a valve.
        Fits = "fits",
        /// A repair.
        Repair = "repair",
        /// An outlet on the barrel.
        Outlet = "outlet",
        /// A connection to equipment.
        Connection = "connection",
        /// Asked for by its name alone, and not when a pipe has only just been told: what grips, what goes along the pipe.
        Other = "other",
    }
}

words! {
    /// Where a part is got.
    Stock {
        /// On the shelf of a well-stocked yard.
        Counter = "counter",
        /// Days.
        Order = "order",
        /// Made up, one to three weeks.
        Shop = "shop",
        /// Made in this size by few: ask whether it is to be had.
        Rare = "rare",
    }
}

words! {
    /// What a part does between two ends in a straight run.
    Run {
        /// It joins two ends of one size, and stays where it is.
        Joins = "joins",
        /// It joins two sizes.
        Reduces = "reduces",
        /// It is made for one size and for two.
        Either = "either",
        /// It has no stop: it slides fully onto one pipe, and back over the gap.
        Slides = "slides",
        /// Its bolts take up what is short between two ends that do not move.
        TakesUp = "takes-up",
        /// Its last end is no bell but goes into one.
        Spigot = "spigot",
        /// It turns the line, and is in no straight run.
        Turns = "turns",
    }
}

words! {
    /// What somebody is about to do.
    Task {
        /// To repair a leak or a break.
        Repair = "repair",
        /// To take a branch or a service off.
        Outlet = "outlet",
        /// To connect a valve, a meter or a pump.
        Equipment = "equipment",
        /// To change direction or size, or to end the line.
        Turn = "turn",
        /// To go under a road.
        Road = "road",
        /// To join another pipe.
        Join = "join",
    }
}

words! {
    /// What a part does to the pipe.
    Act {
        /// The line is cut for it, or its end is taken.
        Cut = "cut",
        /// The wall is drilled or melted through.
        Tap = "tap",
        /// It goes around the pipe, which stays whole.
        Around = "around",
        /// It is bolted or screwed to what is on the pipe already.
        Bolt = "bolt",
        /// It is put in by a crew that is trained and equipped for it.
        Crew = "crew",
    }
}

words! {
    /// A thread. Taper corporation thread and NPT look alike and are not the same.
    Thread {
        /// NPT inside.
        NptFemale = "npt-female",
        /// NPT outside.
        NptMale = "npt-male",
        /// Corporation thread inside.
        CorpFemale = "corp-female",
        /// Corporation thread outside.
        CorpMale = "corp-male",
        /// NPT inside, of plastic: a metal thread splits it.
        NptPlastic = "npt-plastic",
    }
}

words! {
    /// Whether a thing may be put on a joint to hold it.
    Use {
        /// It holds the joint.
        Holds = "holds",
        /// The joint holds itself.
        Itself = "itself",
        /// It must never be used there.
        Never = "never",
        /// Ask first.
        Refer = "refer",
        /// It takes the push of a fitting and no pull, so that it holds nothing in a straight run.
        Blocks = "blocks",
    }
}

impl Use {
    /// Whether it holds, or the joint holds itself, or a block takes the push.
    #[must_use]
    pub const fn holds(self) -> bool {
        matches!(self, Self::Holds | Self::Itself | Self::Blocks)
    }
}

words! {
    /// Whose a pipe is.
    Owner {
        /// Nobody said.
        Unknown = "unknown",
        /// That of who asks.
        Ours = "ours",
        /// The water purveyor's: no cut and no tap without their leave.
        Purveyor = "purveyor",
    }
}

words! {
    /// What is to be bought.
    Job {
        /// Not said: a coupling, a saddle and a restraint.
        None = "none",
        /// A saddle.
        Saddle = "saddle",
        /// A coupling.
        Coupling = "coupling",
        /// A length of pipe.
        Length = "length",
        /// A restraint.
        Restraint = "restraint",
        /// A tap.
        Tap = "tap",
    }
}

//! The figures of the workshop's rows.

macro_rules! figures {
    ($($name:ident = $id:literal,)*) => {
        /// What a row of the workshop is about.
        #[derive(Debug, Clone, Copy, PartialEq, Eq)]
        pub enum WorkFigure {
            $($name,)*
        }

        impl WorkFigure {
            /// Stable, and its own within a card.
            pub fn id(self) -> &'static str {
                match self {
                    $(Self::$name => $id,)*
                }
            }
        }
    };
}

figures! {
    Fit = "fit",
    NominalPlay = "nominal_play",
    WorstPlay = "worst_play",
    LikelyPlay = "likely_play",
    InnerOutside = "inner_outside",
    OuterBore = "outer_bore",
    Overlap = "overlap",
    LeastOverlap = "least_overlap",
    Bearing = "bearing",
    Lean = "lean",
    TopWander = "top_wander",
    LargestOutside = "largest_outside",
    SmallestBore = "smallest_bore",
    Ovality = "ovality",
    Dent = "dent",
    Straightness = "straightness",
    WeldSeam = "weld_seam",
    Thread = "thread",
    TurnOutside = "turn_outside",
    BoreTo = "bore_to",
    RingLength = "ring_length",
    RingStock = "ring_stock",
    RingPlay = "ring_play",
    Length = "length",
    HoleWidth = "hole_width",
    Travel = "travel",
    Pulls = "pulls",
    EachPull = "each_pull",
    RodHole = "rod_hole",
    PinHeight = "pin_height",
    PinInTheEnd = "pin_in_the_end",
    StopMark = "stop_mark",
    StopSleeve = "stop_sleeve",
    PinStill = "pin_still",
    PinAtLimit = "pin_at_limit",
    PinCarries = "pin_carries",
    ThinnestPin = "thinnest_pin",
    Mass = "mass",
    CentreBefore = "centre_before",
    CentreAfter = "centre_after",
    StrapPull = "strap_pull",
    HandForce = "hand_force",
    CrankTurns = "crank_turns",
    JamsAt = "jams_at",
    RodFree = "rod_free",
    RodCarries = "rod_carries",
    GuidesApart = "guides_apart",
    Arm = "arm",
    WinchFrame = "winch_frame",
    DrumMiddle = "drum_middle",
    StrapLength = "strap_length",
    StrapLayers = "strap_layers",
    DrumFull = "drum_full",
    Spacer = "spacer",
}

//! States of the yard: what cards need, bring about and end.

use serde::Serialize;

/// Something that holds in the yard, or does not.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(tag = "state", rename_all = "snake_case")]
pub enum YardState {
    /// Nobody holds up anything: no hand is at the mast, at the crank, or at a tube that stands by hand.
    HandsFree,
    /// The base lies in its place.
    BaseLaid,
    /// A leg, by its place in the plan, has what goes under it.
    FootSet {
        leg: u32,
    },
    /// Every leg has, and the base is level.
    BaseLevel,
    BaseStaked,
    /// The bare lower tube stands in the base, in somebody's hands.
    BareTubeHeld,
    /// The foot was measured with that tube plumb.
    FootMeasured,
    /// Everybody knows who calls, what stop means, and to which side to go.
    EverybodyTold,
    /// Where the mast lies, is walked up and could fall nobody is and nothing lies.
    WayClear,
    StrandsTested,
    StrandsTiedAlong,
    /// The lower end of every tube rests on its stool or pin, and a pin keeps it from sliding out while it lies.
    TubesPinned,
    MastLies,
    /// Stakes hold the edge about which it turns, or the base that carries the pin.
    HingeHeld,
    SideGuysFast,
    StopGuysSet,
    /// The guys on the far side are not made fast.
    FarGuysFree,
    /// At each guy that has to be given and taken in stands somebody.
    RopesInHands,
    /// The line runs over its prop, and the prop stands by ropes of its own.
    LineRigged,
    /// It stands, held by hands against the stop guys.
    HeldAtPlumb,
    /// Every guy is made fast and snug.
    GuysFast,
    MastPlumb,
    /// The strands hang loose from its top, their lower ends laid out.
    StrandsLoose,
    /// Of the guys that go up with a tube: helpers give rope.
    RopeGiven {
        tube: u32,
    },
    /// A tube, with what it carries, rests on its stool or on a pin.
    WeightOnPin {
        tube: u32,
    },
    /// The rod is pinned to a tube for a pull, counted from 1.
    RodPinned {
        tube: u32,
        pull: u32,
    },
    /// The strap pulls at nothing.
    StrapSlack,
    /// Somebody may be beneath the mast and inside its ropes.
    BeneathOpen,
    /// Nobody is, but who cranks and who sets the pin, each at the side.
    BeneathClear,
    /// The weight hangs in the strap, and a hand is on the crank.
    HandOnCrank {
        tube: u32,
        pull: u32,
    },
    /// The pin is through, and nothing rests on it yet.
    PinThrough {
        tube: u32,
        pull: u32,
    },
    /// A pull is over: the tube rests on its pin, the rod is free.
    Pulled {
        tube: u32,
        pull: u32,
    },
    SecondPinSet {
        tube: u32,
    },
    /// A tube is all the way up, on both its pins, the guys that rose with it made fast.
    StageUp {
        tube: u32,
    },
    /// Of a tube that comes down: only one pin carries it still.
    SecondPinDrawn {
        tube: u32,
    },
    /// The pin is out, and the strap carries.
    PinDrawn {
        tube: u32,
        pull: u32,
    },
    /// It came down as far as this pull of the rod lets it, and hangs in the strap.
    CameDown {
        tube: u32,
        pull: u32,
    },
    /// The same, and it stands on a pin or its stool.
    LetDown {
        tube: u32,
        pull: u32,
    },
    /// A tube is all the way down, its guys made fast there.
    StageDown {
        tube: u32,
    },
    /// The base that tilts with the mast is no longer held by its own stakes.
    BaseFreed,
    RingLaid,
    RingHeld,
    LowerEndsTied,
    StrandsSet,
    LeadLaid,
    Lit,
    /// No current runs in the strands, and the plug is pulled.
    PowerOff,
}

/// Why a card needs a state.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize)]
#[cfg_attr(feature = "typegen", derive(schemars::JsonSchema, ts_rs::TS))]
#[serde(rename_all = "snake_case")]
pub enum NeedWhy {
    /// Who lets go to do something else drops what was held.
    HandsAreFull,
    /// It tilts, and the mast with it.
    StandsOnIt,
    /// What was measured decides how long the foot is cut.
    FootIsCutToIt,
    /// Without a call two do two things at once, and nobody knows where to step aside.
    NobodyKnowsTheCall,
    /// What falls, falls there.
    FallsThere,
    /// A dark strand is changed on the ground, not at the top.
    DarkOnTheGround,
    /// Loose they trail, catch, and pull at the top.
    LooseStrandsCatch,
    /// They slide out as it is lifted.
    TubesSlideOut,
    /// It is pinned, tied and looked at while it lies.
    DoneWhileItLies,
    /// Its foot kicks out.
    FootKicksOut,
    /// It goes over sideways.
    GoesOverSideways,
    /// It goes over past plumb.
    GoesOverPastPlumb,
    /// They are too short until it is plumb: it stops half-way, or something breaks.
    TooShortUntilPlumb,
    /// A rope that nobody gives and takes in goes taut or trails.
    RopeUntended,
    /// Only hands hold it until the last guys are fast.
    HandsHoldIt,
    /// Nothing else keeps it up.
    OnlyGuysHoldIt,
    /// The prop goes over as the line pulls at it.
    PropGoesOver,
    /// The base is still held by what is drawn.
    StillHeldByIt,
    /// It can be moved only while it is low.
    EasierLow,
    /// Tubes bind where it leans.
    BindsOutOfPlumb,
    /// A guy that is fast stops the tube, or pulls the mast over.
    FastGuyStopsIt,
    /// The inner tubes go up while they can be reached, and are carried by the outer ones.
    InnerFirst,
    /// The strap would hold alone with somebody beneath.
    StrapAlone,
    /// A strap, a hook and a crank can slip: nobody is beneath meanwhile.
    StrapCanSlip,
    /// The rod would be drawn out from under what it carries.
    RodCarries,
    /// The crank pulls at nothing without it.
    NothingToPull,
    /// A hand that leaves the crank lets it run back.
    CrankRunsBack,
    /// Weight is let down onto a pin, or it comes all the way down.
    NothingToRestOn,
    /// It hangs on one pin until the second is set.
    SecondPinHoldsToo,
    /// What the tubes take along must run freely.
    StrandsRunFreely,
    /// The rings of ends go where the mast stands.
    MeasuredFromTheMast,
    /// The strands lift it.
    RingLifts,
    /// Nobody handles a strand that has current.
    CurrentInHands,
    /// The pin carries until the strap does: drawn before, all of it falls.
    StrapFirst,
    /// The tube cannot come past it.
    PinStopsIt,
    SecondPinStopsIt,
    /// The outer tubes come down first: so the inner ones can be reached.
    OuterFirst,
    /// Staked down it cannot tilt, and breaks or tears out.
    StakesStopTheBase,
    /// The order of the cranking.
    PullAfterPull,
    /// One goes on from the other.
    DoneInTurn,
}

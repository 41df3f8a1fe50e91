//! What an advice asks of the hands of its seat.
//!
//! In: an advice. Out: a set of deeds. Not here: which of them would harm (`guard.rs`).

use events::Advice;

/// What an advice asks of hands.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ask(u32);

impl Ask {
    // By definition: one bit for each.
    /// Nothing that could harm.
    pub const NOTHING: Self = Self(0);
    /// Hands or a head under the vehicle.
    pub const BELOW: Self = Self(1);
    /// Starting the engine.
    pub const START: Self = Self(1 << 1);
    /// Letting it idle on.
    pub const IDLE: Self = Self(1 << 2);
    /// Stopping it.
    pub const STOP: Self = Self(1 << 3);
    /// Moving the selector.
    pub const SHIFT: Self = Self(1 << 4);
    /// Opening the check port.
    pub const OPEN: Self = Self(1 << 5);
    /// Leaving it open and watching.
    pub const WATCH: Self = Self(1 << 6);
    /// Draining.
    pub const DRAIN: Self = Self(1 << 7);
    /// Filling.
    pub const FILL: Self = Self(1 << 8);
    /// Lowering and driving.
    pub const DRIVE: Self = Self(1 << 9);
    /// Tightening the pipe.
    pub const PIPE: Self = Self(1 << 10);
    /// Calling the level set: tightening the plugs for good.
    pub const SETTLE: Self = Self(1 << 11);
    /// Changing the stands.
    pub const STANDS: Self = Self(1 << 12);
    /// A second person.
    pub const HELPER: Self = Self(1 << 13);
    /// Going on waiting.
    pub const WAIT: Self = Self(1 << 14);
    /// Giving what is missing as the extra alone.
    pub const MARGIN: Self = Self(1 << 15);
    /// Hands or a head near the running vehicle, not under it.
    pub const NEAR: Self = Self(1 << 16);

    /// Both.
    pub const fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether any of `other` is in it.
    pub const fn has(self, other: Self) -> bool {
        self.0 & other.0 != 0
    }
}

/// What each advice asks of the hands of its seat.
pub const fn asks(advice: Advice) -> Ask {
    use Advice as A;
    match advice {
        A::OpenFillPort
        | A::PutPinIn
        | A::CloseUp
        | A::LookWhyLow
        | A::MendLeak
        | A::LookForDrops
        | A::WatchOff
        | A::LookAtEdge
        | A::LetSome
        | A::HoseOut
        | A::Refit => Ask::BELOW,
        A::FeelPan => Ask::BELOW,
        A::ReadInside => Ask::IDLE,
        A::AskEngine => Ask::WATCH.and(Ask::IDLE),
        A::PutPipeIn | A::WasPipeOut => Ask::BELOW.and(Ask::PIPE),
        A::Drain | A::DrainAgain => Ask::BELOW.and(Ask::DRAIN),
        A::DrainWrong | A::LetOut | A::ReadJug | A::TakePinOut | A::WipeDry => Ask::BELOW,
        A::Fill | A::FillFirst | A::FillToEdge | A::AddAmount | A::FillHere => Ask::BELOW.and(Ask::FILL),
        A::OpenPortOff => Ask::BELOW.and(Ask::OPEN),
        A::WatchDrips => Ask::BELOW.and(Ask::WATCH).and(Ask::IDLE),
        A::LookPosition => Ask::SHIFT.and(Ask::IDLE),
        A::FillMore => Ask::BELOW.and(Ask::FILL).and(Ask::MARGIN),
        A::Tighten => Ask::BELOW.and(Ask::SETTLE),
        A::BeReady | A::CheckSensor | A::LookForLeaks => Ask::BELOW.and(Ask::IDLE),
        A::OpenPort => Ask::BELOW.and(Ask::OPEN).and(Ask::IDLE),
        A::WatchStream | A::StillFlowing => Ask::BELOW.and(Ask::WATCH).and(Ask::IDLE),
        A::StartEngine => Ask::START.and(Ask::IDLE),
        A::CycleSelector => Ask::SHIFT.and(Ask::IDLE),
        A::HoldBrake => Ask::IDLE,
        A::ReadGauge | A::ReadAgain | A::DrawOut => Ask::NEAR.and(Ask::IDLE),
        A::KeepIdling | A::MayStop => Ask::IDLE.and(Ask::WAIT),
        A::KeepIdlingUntilClosed => Ask::HELPER,
        A::StayClear | A::ConfirmOpen => Ask::IDLE,
        A::Settle => Ask::NOTHING,
        A::StopAndCool | A::StopEngine | A::StopNow | A::ChargeBattery => Ask::STOP,
        A::TestDrive => Ask::DRIVE,
        A::ShimStands => Ask::STANDS,
        A::WaitForClear | A::CallBelow | A::HelpBurn => Ask::HELPER,
        _ => Ask::NOTHING,
    }
}

//! Rehearsals in which one trouble is timed to the band, or the sensors are worse than usual.
//!
//! In: a drawn rehearsal. Out: the same one with one trouble and nothing else wrong. Not here: what the troubles are
//! (`timed.rs`).

use crate::dice::Dice;
use crate::firmware;
use crate::mistake::Mistake;
use crate::observer::can_be_read;
use crate::setup::Setup;
use crate::timed::{Drawn, Stop, Strikes, Timed, Trouble};
use crate::{Bus, Script};

impl Setup {
    /// The same with one trouble timed to the band, and nothing else wrong: an adapter that reads, no mistake, no other
    /// fault. One in three was run before, and its sheet asks for no cold start: its engine is warm and its fluid is not.
    #[must_use]
    pub fn with_timed_trouble(self, drawn: Drawn) -> Self {
        let mut dice = Dice::part(self.seed, 0x71_3ED);
        let mut setup = if self.script.mistake.is_some() { self.without_mistake(&mut dice) } else { self };
        setup.faults.clear();
        setup.bus = Bus::usual();
        if !can_be_read(setup.firmware) {
            setup.firmware = firmware::ALL.first().copied().unwrap_or(&firmware::ORIGINAL_21);
        }
        let mut timed = Timed::draw(&mut dice, setup.sheet.check.band_c, drawn);
        let vehicle = &mut setup.vehicle;
        let air = vehicle.air_celsius;
        // How warm the fluid is at a warm start nobody knows but its sensor: one that is off from the start is not seen then.
        let off = matches!(timed.trouble, Trouble::ShiftBefore | Trouble::ShiftLittle | Trouble::Fill);
        if setup.warmup.is_none() && !off && dice.chance(0.33) {
            setup.sheet.before.started_cold = false;
            vehicle.engine_celsius = dice.between(air.max(0.0) + 6.0, 65.0_f64.max(air + 7.0));
            vehicle.fluid_celsius = air + (vehicle.engine_celsius - air) * dice.between(0.0, 0.7);
        }
        match timed.trouble {
            // A jump is one in what was read before.
            Trouble::Shift => {
                if let Strikes::Above(above) = &mut timed.strikes {
                    *above = above.max(vehicle.fluid_celsius + 2.0);
                }
            }
            Trouble::Stop => {
                let Strikes::Above(above) = timed.strikes else { return setup };
                setup.script.stop = Some(Stop { above, seconds: timed.lasts_s.unwrap_or_default() });
            }
            Trouble::Fill => {
                setup.script = Script { mistake: Some(Mistake::UnderFilled), ..setup.script };
                vehicle.air_celsius = air.min(dice.between(-5.0, 12.0));
            }
            _ => {}
        }
        setup.timed = Some(timed);
        setup
    }

    /// The same with sensors that are off by up to this, K, fluid and coolant.
    #[must_use]
    pub fn with_sensors(mut self, within_k: f64) -> Self {
        let mut dice = Dice::part(self.seed, 0x5E_2502);
        self.vehicle.traits.fluid_offset_k = dice.within(within_k);
        self.vehicle.traits.coolant_offset_k = dice.within(within_k);
        self
    }
}

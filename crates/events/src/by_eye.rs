//! What a person reads off: where a thermometer was held to, what the vehicle's own lamp says.
//!
//! In: nothing. Out: two lists of words. Not here: the readings made of them (`quantity.rs`).

use units::words;

words! {
    /// What a spot thermometer was pointed at or held to.
    json Surface {
        Tape "tape" "Matt tape on the metal sump.",
        MattPaint "matt-paint" "Matt paint on the metal sump.",
        Plastic "plastic" "A plastic sump.",
        BareMetal "bare-metal" "Bare metal: refused for infrared, its reading is the surroundings'.",
        Contact "contact" "A contact probe on the metal sump.",
        Stream "stream" "A probe in the fluid itself.",
        Air "air" "No surface: the air under the vehicle.",
    }
}

words! {
    /// What the vehicle's own lamp says of the fluid.
    json LampState {
        TooCold "too-cold" "Below the band.",
        Right "right" "In the band.",
        TooHot "too-hot" "Above the band.",
    }
}

//! From the outside of the pan to the fluid inside: the surface is cooler, so a reading of it is low.
//!
//! In: temperatures, film coefficients, the wall. Out: the surface, the fluid, the offset. Not here: reading the
//! surface (`spot.rs`).
//! Source: heat through three resistances in series. Metal in still air: 1 to 2 °C at 40 °C; in the fan's draught 4;
//! a plastic pan 3 to 8. Film coefficients are from memory, so the offset is uncertain by half its size.

use crate::{FluidError, range};

/// The wall between fluid and air.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PanWall {
    /// Film coefficient of the fluid, W/m²K.
    pub inside_w_m2k: f64,
    /// Thickness of the wall, mm.
    pub wall_mm: f64,
    /// Its conductivity, W/mK.
    pub wall_w_mk: f64,
    /// Film coefficient of the air with radiation, W/m²K.
    pub outside_w_m2k: f64,
}

/// The outside of the pan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct PanSurface {
    /// Its temperature, °C.
    pub surface_c: f64,
    /// What must be added to it to have the fluid, °C.
    pub offset_c: f64,
}

impl PanWall {
    /// Cast or sheet metal in still air, engine idling.
    /// Source: from memory: film coefficients, fixtures/reference/physics/thermal_parameters.csv; offset uncertain by
    /// half its size.
    pub const METAL: Self = Self { inside_w_m2k: 100.0, wall_mm: 3.0, wall_w_mk: 150.0, outside_w_m2k: 10.0 };
    /// Plastic in still air, engine idling.
    /// Source: as [`PanWall::METAL`]; the conductivity from memory.
    pub const PLASTIC: Self = Self { wall_w_mk: 0.3, ..Self::METAL };

    /// The surface over fluid of `fluid_c` in air of `air_c`.
    ///
    /// # Errors
    /// An input outside its range.
    pub fn surface(self, fluid_c: f64, air_c: f64) -> Result<PanSurface, FluidError> {
        let fluid = range::CELSIUS.named("fluid temperature").check(fluid_c)?;
        let air = range::CELSIUS.named("air temperature").check(air_c)?;
        let share = self.outer_share()?;
        Ok(PanSurface { surface_c: air + (fluid - air) * share, offset_c: (fluid - air) * (1.0 - share) })
    }

    /// The fluid behind a surface of `surface_c` in air of `air_c`, °C: the inverse of [`PanWall::surface`].
    ///
    /// # Errors
    /// An input outside its range, or a fluid that would lie outside [`range::CELSIUS`].
    pub fn fluid_c(self, surface_c: f64, air_c: f64) -> Result<f64, FluidError> {
        let surface = range::CELSIUS.named("surface temperature").check(surface_c)?;
        let air = range::CELSIUS.named("air temperature").check(air_c)?;
        range::CELSIUS.named("fluid temperature").check(air + (surface - air) / self.outer_share()?)
    }

    /// The share of the temperature drop that lies in the air.
    fn outer_share(self) -> Result<f64, FluidError> {
        let inside = 1.0 / range::FILM_W_M2K.named("film coefficient inside").check(self.inside_w_m2k)?;
        let wall = range::WALL_THICKNESS_MM.check(self.wall_mm)?
            / 1_000.0
            / range::WALL_W_MK.check(self.wall_w_mk)?;
        let outside = 1.0 / range::FILM_W_M2K.named("film coefficient outside").check(self.outside_w_m2k)?;
        Ok(outside / (inside + wall + outside))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn plastic_hides_more_than_metal() {
        let at = |wall: PanWall| wall.surface(40.0, 20.0).unwrap().offset_c;
        assert!((1.0..2.0).contains(&at(PanWall::METAL)) && (3.0..8.0).contains(&at(PanWall::PLASTIC)));
    }

    proptest! {
        #[test]
        fn the_fluid_behind_its_surface_is_where_it_was(fluid in 20.0..110.0, air in -20.0..40.0, h in 2.0..40.0) {
            let wall = PanWall { outside_w_m2k: h, ..PanWall::PLASTIC };
            let surface = wall.surface(fluid, air).unwrap();
            prop_assert!((wall.fluid_c(surface.surface_c, air).unwrap() - fluid).abs() < 1e-9);
            prop_assert!((surface.surface_c + surface.offset_c - fluid).abs() < 1e-12);
        }
    }
}

//! The two checksums of the older buses. In: the bytes before it. Out: the byte.
//! Source: SAE J1850 cyclic redundancy check (polynomial 1D, preset FF, inverted), ISO 9141-2 and ISO 14230-2
//! (sum modulo 256); both as recomputed in `wire_vectors.csv` of the reference.

/// The checksum of SAE J1850.
pub(crate) fn j1850(bytes: &[u8]) -> u8 {
    !bytes.iter().fold(0xFF_u8, |crc, byte| {
        (0..8).fold(crc ^ byte, |crc, _| if crc & 0x80 == 0 { crc << 1 } else { crc << 1 ^ 0x1D })
    })
}

/// The checksum of ISO 9141-2 and ISO 14230.
pub(crate) fn sum(bytes: &[u8]) -> u8 {
    bytes.iter().fold(0, |sum: u8, byte| sum.wrapping_add(*byte))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_check_value_of_the_published_j1850_code_comes_out() {
        // Catalogue of parametrised CRC algorithms: CRC-8/SAE-J1850, check value over "123456789" is 4B.
        assert_eq!(j1850(b"123456789"), 0x4B);
    }

    #[test]
    fn the_sum_wraps() {
        assert_eq!(sum(&[0x80, 0xF1, 0x11, 0x04, 0x41, 0x0C, 0x1F, 0x44]), 0x36);
    }
}

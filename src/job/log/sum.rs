//! The sum at the end of a line: CRC-32, eight hex digits, of every byte of the file before `, sum:`.

/// What stands before the digits, and after them.
const BEFORE: &[u8] = b", sum: ";
const AFTER: &[u8] = b"}";
/// Hex digits of a sum.
const DIGITS: usize = 8;

/// The bytes of a line before its sum, and the sum; none where the line has none.
pub(super) fn parted(line: &[u8]) -> Option<(&[u8], u32)> {
    let line = line.trim_ascii_end().strip_suffix(AFTER)?;
    let (before, digits) = line.split_at_checked(line.len().checked_sub(DIGITS)?)?;
    let before = before.strip_suffix(BEFORE)?;
    let hex = digits.iter().all(|digit| digit.is_ascii_digit() || (b'a'..=b'f').contains(digit));
    let digits = std::str::from_utf8(digits).ok().filter(|_| hex)?;
    Some((before, u32::from_str_radix(digits, 16).ok()?))
}

/// Feeds bytes to a sum, each end of a line as this program writes it: a log that was carried over another system is the same log.
pub(super) fn fed(sum: &mut crc32fast::Hasher, bytes: &[u8]) {
    for line in bytes.split_inclusive(|byte| *byte == b'\n') {
        match line.strip_suffix(b"\r\n") {
            Some(bare) => {
                sum.update(bare);
                sum.update(b"\n");
            }
            None => sum.update(line),
        }
    }
}

/// A line without its last brace, with the sum over what was written before it put behind it.
pub(super) fn with_sum(old: &[u8], open: &str) -> String {
    let mut sum = crc32fast::Hasher::new();
    fed(&mut sum, old);
    sum.update(open.as_bytes());
    format!("{open}, sum: {:08x}}}\n", sum.finalize())
}

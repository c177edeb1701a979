//! The least that any program must do: read the job and write as many bytes. Usage: JOB BYTES OUT; without arguments, nothing.

fn main() -> std::io::Result<()> {
    let arguments: Vec<String> = std::env::args().skip(1).collect();
    let [job, bytes, out] = arguments.as_slice() else { return Ok(()) };
    let text = std::fs::read(job)?;
    let bytes = bytes.parse().unwrap_or(0);
    std::fs::write(out, text.iter().copied().cycle().take(bytes).collect::<Vec<u8>>())
}

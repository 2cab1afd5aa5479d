//! The two serial ports. Interrupts move received bytes into queues; the queue of the part itself holds what is sent.

use core::cell::RefCell;
use core::ptr::NonNull;
use core::sync::atomic::{AtomicU32, Ordering};

use arm_pl011_uart::{
    DataBits, Interrupts, LineConfig, PL011Registers, Parity, StopBits, Uart, UniqueMmioPointer,
};
use cortex_m::interrupt::{self, InterruptNumber, Mutex};
use cortex_m::peripheral::NVIC;
use cortex_m_rt::exception;
use heapless::spsc::{Consumer, Producer, Queue};
use springline_firmware::drivers::intake::Intake;

use crate::clock;

/// Bits in a second, on both.
const BAUD: u32 = 115_200;
/// Eight bits, no parity, one stop bit.
const LINE: LineConfig = LineConfig {
    data_bits: DataBits::Bits8,
    parity: Parity::None,
    stop_bits: StopBits::One,
};

/// A gauge says a dozen bytes at a time; a queue holds one less than its size.
const GAUGE_ROOM: usize = 128;
/// A link's frame, and half of the next while that is worked on.
const HOST_ROOM: usize = 512;

/// Numbers of the ports in the vector table.
#[derive(Clone, Copy)]
enum Line {
    Gauge = 5,
    Host = 6,
}

// SAFETY: numbers of UART0 and UART1 in the part's data sheet, which never change.
unsafe impl InterruptNumber for Line {
    fn number(self) -> u16 {
        self as u16
    }
}

/// A port and the end of the queue that its interrupt fills.
struct Port {
    uart: Uart<'static>,
    received: Intake<'static>,
}

/// Shared with the interrupts, which take them one at a time.
static GAUGE: Mutex<RefCell<Option<Port>>> = Mutex::new(RefCell::new(None));
static HOST: Mutex<RefCell<Option<Port>>> = Mutex::new(RefCell::new(None));

/// Bytes that came garbled, or while a queue was full.
static LOST: AtomicU32 = AtomicU32::new(0);

/// The loop's side of the ports.
pub(crate) struct Ports {
    /// What the gauge sent.
    pub(crate) gauge: Consumer<'static, u8>,
    /// What the host sent.
    pub(crate) host: Consumer<'static, u8>,
}

impl Ports {
    /// Starts both ports; `None` when it was called before.
    pub(crate) fn start() -> Option<Self> {
        let (to_gauge, gauge) =
            cortex_m::singleton!(: Queue<u8, GAUGE_ROOM> = Queue::new())?.split();
        let (to_host, host) = cortex_m::singleton!(: Queue<u8, HOST_ROOM> = Queue::new())?.split();
        // SAFETY: UART0 and UART1 of the part, which are PL011s; nothing else knows their addresses, and the queues above
        // exist once, so that nobody comes here twice.
        let (gauge_uart, host_uart) = unsafe { (uart(0x4000_c000)?, uart(0x4000_d000)?) };
        open(&GAUGE, gauge_uart, to_gauge, Line::Gauge);
        open(&HOST, host_uart, to_host, Line::Host);
        Some(Self { gauge, host })
    }
}

/// Bytes that were lost since this was last asked.
pub(crate) fn lost() -> u32 {
    let lost = LOST.load(Ordering::Relaxed);
    if lost > 0 {
        // An interrupt between the two is not counted; a lost byte more or less is all the same.
        LOST.store(0, Ordering::Relaxed);
    }
    lost
}

/// Sends a byte to the host; `false` when the part's queue is full, or before the ports are started.
pub(crate) fn send(byte: u8) -> bool {
    let sent = with(&HOST, |port| {
        let room = !port.uart.is_tx_fifo_full();
        if room {
            port.uart.write_word(byte);
        }
        room
    });
    sent.unwrap_or(false)
}

/// # Safety
///
/// The address must be that of a PL011 that nobody else uses.
unsafe fn uart(address: usize) -> Option<Uart<'static>> {
    let registers = NonNull::new(core::ptr::with_exposed_provenance_mut::<PL011Registers>(
        address,
    ))?;
    // SAFETY: promised by the caller.
    Some(Uart::new(unsafe { UniqueMmioPointer::new(registers) }))
}

fn open(
    port: &'static Mutex<RefCell<Option<Port>>>,
    mut uart: Uart<'static>,
    received: Producer<'static, u8>,
    line: Line,
) {
    // Only a clock that no rate can be made of is refused.
    if uart.enable(LINE, BAUD, clock::HERTZ).is_err() {
        defmt::error!("no such baud rate");
    }
    // A few bytes make an interrupt, or fewer and a pause.
    uart.set_interrupt_masks(Interrupts::RXI | Interrupts::RTI);
    interrupt::free(|free| {
        if let Ok(mut slot) = port.borrow(free).try_borrow_mut() {
            let received = Intake::new(received);
            *slot = Some(Port { uart, received });
        }
    });
    // SAFETY: the queue is in place; no lock relies on this interrupt being masked.
    unsafe { NVIC::unmask(line) }
}

/// Does something with a port while no interrupt can come.
fn with<T>(
    port: &'static Mutex<RefCell<Option<Port>>>,
    work: impl FnOnce(&mut Port) -> T,
) -> Option<T> {
    interrupt::free(|free| {
        // Never borrowed twice: this is the only place, and nothing interrupts it.
        let mut slot = port.borrow(free).try_borrow_mut().ok()?;
        slot.as_mut().map(work)
    })
}

fn receive(port: &mut Port) {
    // Errors are of single bytes; what follows may be sound.
    let mut lost = 0;
    while !port.uart.is_rx_fifo_empty() {
        match port.uart.read_word() {
            Ok(Some(byte)) => lost += u32::from(!port.received.take(byte)),
            Ok(None) => {}
            Err(_) => {
                port.received.lose();
                lost += 1;
            }
        }
    }
    LOST.store(
        LOST.load(Ordering::Relaxed).wrapping_add(lost),
        Ordering::Relaxed,
    );
    port.uart
        .clear_interrupts(Interrupts::RXI | Interrupts::RTI);
}

/// Every interrupt without a handler of its own, by its number: the board needs but two, and no vector table for them.
#[exception]
unsafe fn DefaultHandler(number: i16) {
    match number {
        5 => with(&GAUGE, receive),
        6 => with(&HOST, receive),
        _ => None,
    };
}

// @generated from the Rust API by bindings/generate. Do not edit.

// swiftlint:disable all
import Foundation

// Depending on the consumer's build setup, the low-level FFI code
// might be in a separate module, or it might be compiled inline into
// this module. This is a bit of light hackery to work with both.
#if canImport(FarsidingFFI)
import FarsidingFFI
#endif

fileprivate extension RustBuffer {
    // Allocate a new buffer, copying the contents of a `UInt8` array.
    init(bytes: [UInt8]) {
        let rbuf = bytes.withUnsafeBufferPointer { ptr in
            RustBuffer.from(ptr)
        }
        self.init(capacity: rbuf.capacity, len: rbuf.len, data: rbuf.data)
    }

    static func empty() -> RustBuffer {
        RustBuffer(capacity: 0, len:0, data: nil)
    }

    static func from(_ ptr: UnsafeBufferPointer<UInt8>) -> RustBuffer {
        try! rustCall { ffi_farsiding_bindings_rustbuffer_from_bytes(ForeignBytes(bufferPointer: ptr), $0) }
    }

    // Frees the buffer in place.
    // The buffer must not be used after this is called.
    func deallocate() {
        try! rustCall { ffi_farsiding_bindings_rustbuffer_free(self, $0) }
    }
}

fileprivate extension ForeignBytes {
    init(bufferPointer: UnsafeBufferPointer<UInt8>) {
        self.init(len: Int32(bufferPointer.count), data: bufferPointer.baseAddress)
    }
}

// For every type used in the interface, we provide helper methods for conveniently
// lifting and lowering that type from C-compatible data, and for reading and writing
// values of that type in a buffer.

// Helper classes/extensions that don't change.
// Someday, this will be in a library of its own.

fileprivate extension Data {
    init(rustBuffer: RustBuffer) {
        self.init(
            bytesNoCopy: rustBuffer.data!,
            count: Int(rustBuffer.len),
            deallocator: .none
        )
    }
}

// Define reader functionality.  Normally this would be defined in a class or
// struct, but we use standalone functions instead in order to make external
// types work.
//
// With external types, one swift source file needs to be able to call the read
// method on another source file's FfiConverter, but then what visibility
// should Reader have?
// - If Reader is fileprivate, then this means the read() must also
//   be fileprivate, which doesn't work with external types.
// - If Reader is internal/public, we'll get compile errors since both source
//   files will try define the same type.
//
// Instead, the read() method and these helper functions input a tuple of data

fileprivate func createReader(data: Data) -> (data: Data, offset: Data.Index) {
    (data: data, offset: 0)
}

// Reads an integer at the current offset, in big-endian order, and advances
// the offset on success. Throws if reading the integer would move the
// offset past the end of the buffer.
fileprivate func readInt<T: FixedWidthInteger>(_ reader: inout (data: Data, offset: Data.Index)) throws -> T {
    let range = reader.offset..<reader.offset + MemoryLayout<T>.size
    guard reader.data.count >= range.upperBound else {
        throw UniffiInternalError.bufferOverflow
    }
    if T.self == UInt8.self {
        let value = reader.data[reader.offset]
        reader.offset += 1
        return value as! T
    }
    var value: T = 0
    let _ = withUnsafeMutableBytes(of: &value, { reader.data.copyBytes(to: $0, from: range)})
    reader.offset = range.upperBound
    return value.bigEndian
}

// Reads an arbitrary number of bytes, to be used to read
// raw bytes, this is useful when lifting strings
fileprivate func readBytes(_ reader: inout (data: Data, offset: Data.Index), count: Int) throws -> Array<UInt8> {
    let range = reader.offset..<(reader.offset+count)
    guard reader.data.count >= range.upperBound else {
        throw UniffiInternalError.bufferOverflow
    }
    var value = [UInt8](repeating: 0, count: count)
    value.withUnsafeMutableBufferPointer({ buffer in
        reader.data.copyBytes(to: buffer, from: range)
    })
    reader.offset = range.upperBound
    return value
}

// Reads a float at the current offset.
fileprivate func readFloat(_ reader: inout (data: Data, offset: Data.Index)) throws -> Float {
    return Float(bitPattern: try readInt(&reader))
}

// Reads a float at the current offset.
fileprivate func readDouble(_ reader: inout (data: Data, offset: Data.Index)) throws -> Double {
    return Double(bitPattern: try readInt(&reader))
}

// Indicates if the offset has reached the end of the buffer.
fileprivate func hasRemaining(_ reader: (data: Data, offset: Data.Index)) -> Bool {
    return reader.offset < reader.data.count
}

// Define writer functionality.  Normally this would be defined in a class or
// struct, but we use standalone functions instead in order to make external
// types work.  See the above discussion on Readers for details.

fileprivate func createWriter() -> [UInt8] {
    return []
}

fileprivate func writeBytes<S>(_ writer: inout [UInt8], _ byteArr: S) where S: Sequence, S.Element == UInt8 {
    writer.append(contentsOf: byteArr)
}

// Writes an integer in big-endian order.
//
// Warning: make sure what you are trying to write
// is in the correct type!
fileprivate func writeInt<T: FixedWidthInteger>(_ writer: inout [UInt8], _ value: T) {
    var value = value.bigEndian
    withUnsafeBytes(of: &value) { writer.append(contentsOf: $0) }
}

fileprivate func writeFloat(_ writer: inout [UInt8], _ value: Float) {
    writeInt(&writer, value.bitPattern)
}

fileprivate func writeDouble(_ writer: inout [UInt8], _ value: Double) {
    writeInt(&writer, value.bitPattern)
}

// Protocol for types that transfer other types across the FFI. This is
// analogous to the Rust trait of the same name.
fileprivate protocol FfiConverter {
    associatedtype FfiType
    associatedtype SwiftType

    static func lift(_ value: FfiType) throws -> SwiftType
    static func lower(_ value: SwiftType) -> FfiType
    static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> SwiftType
    static func write(_ value: SwiftType, into buf: inout [UInt8])
}

// Types conforming to `Primitive` pass themselves directly over the FFI.
fileprivate protocol FfiConverterPrimitive: FfiConverter where FfiType == SwiftType { }

extension FfiConverterPrimitive {
#if swift(>=5.8)
    @_documentation(visibility: private)
#endif
    public static func lift(_ value: FfiType) throws -> SwiftType {
        return value
    }

#if swift(>=5.8)
    @_documentation(visibility: private)
#endif
    public static func lower(_ value: SwiftType) -> FfiType {
        return value
    }
}

// Types conforming to `FfiConverterRustBuffer` lift and lower into a `RustBuffer`.
// Used for complex types where it's hard to write a custom lift/lower.
fileprivate protocol FfiConverterRustBuffer: FfiConverter where FfiType == RustBuffer {}

extension FfiConverterRustBuffer {
#if swift(>=5.8)
    @_documentation(visibility: private)
#endif
    public static func lift(_ buf: RustBuffer) throws -> SwiftType {
        var reader = createReader(data: Data(rustBuffer: buf))
        let value = try read(from: &reader)
        if hasRemaining(reader) {
            throw UniffiInternalError.incompleteData
        }
        buf.deallocate()
        return value
    }

#if swift(>=5.8)
    @_documentation(visibility: private)
#endif
    public static func lower(_ value: SwiftType) -> RustBuffer {
          var writer = createWriter()
          write(value, into: &writer)
          return RustBuffer(bytes: writer)
    }
}
// An error type for FFI errors. These errors occur at the UniFFI level, not
// the library level.
fileprivate enum UniffiInternalError: LocalizedError {
    case bufferOverflow
    case incompleteData
    case unexpectedOptionalTag
    case unexpectedEnumCase
    case unexpectedNullPointer
    case unexpectedRustCallStatusCode
    case unexpectedRustCallError
    case unexpectedStaleHandle
    case rustPanic(_ message: String)

    public var errorDescription: String? {
        switch self {
        case .bufferOverflow: return "Reading the requested value would read past the end of the buffer"
        case .incompleteData: return "The buffer still has data after lifting its containing value"
        case .unexpectedOptionalTag: return "Unexpected optional tag; should be 0 or 1"
        case .unexpectedEnumCase: return "Raw enum value doesn't match any cases"
        case .unexpectedNullPointer: return "Raw pointer value was null"
        case .unexpectedRustCallStatusCode: return "Unexpected RustCallStatus code"
        case .unexpectedRustCallError: return "CALL_ERROR but no errorClass specified"
        case .unexpectedStaleHandle: return "The object in the handle map has been dropped already"
        case let .rustPanic(message): return message
        }
    }
}

fileprivate extension NSLock {
    func withLock<T>(f: () throws -> T) rethrows -> T {
        self.lock()
        defer { self.unlock() }
        return try f()
    }
}

fileprivate let CALL_SUCCESS: Int8 = 0
fileprivate let CALL_ERROR: Int8 = 1
fileprivate let CALL_UNEXPECTED_ERROR: Int8 = 2
fileprivate let CALL_CANCELLED: Int8 = 3

fileprivate extension RustCallStatus {
    init() {
        self.init(
            code: CALL_SUCCESS,
            errorBuf: RustBuffer.init(
                capacity: 0,
                len: 0,
                data: nil
            )
        )
    }
}

private func rustCall<T>(_ callback: (UnsafeMutablePointer<RustCallStatus>) -> T) throws -> T {
    let neverThrow: ((RustBuffer) throws -> Never)? = nil
    return try makeRustCall(callback, errorHandler: neverThrow)
}

private func rustCallWithError<T, E: Swift.Error>(
    _ errorHandler: @escaping (RustBuffer) throws -> E,
    _ callback: (UnsafeMutablePointer<RustCallStatus>) -> T) throws -> T {
    try makeRustCall(callback, errorHandler: errorHandler)
}

private func makeRustCall<T, E: Swift.Error>(
    _ callback: (UnsafeMutablePointer<RustCallStatus>) -> T,
    errorHandler: ((RustBuffer) throws -> E)?
) throws -> T {
    uniffiEnsureFarsidingBindingsInitialized()
    var callStatus = RustCallStatus.init()
    let returnedVal = callback(&callStatus)
    try uniffiCheckCallStatus(callStatus: callStatus, errorHandler: errorHandler)
    return returnedVal
}

private func uniffiCheckCallStatus<E: Swift.Error>(
    callStatus: RustCallStatus,
    errorHandler: ((RustBuffer) throws -> E)?
) throws {
    switch callStatus.code {
        case CALL_SUCCESS:
            return

        case CALL_ERROR:
            if let errorHandler = errorHandler {
                throw try errorHandler(callStatus.errorBuf)
            } else {
                callStatus.errorBuf.deallocate()
                throw UniffiInternalError.unexpectedRustCallError
            }

        case CALL_UNEXPECTED_ERROR:
            // When the rust code sees a panic, it tries to construct a RustBuffer
            // with the message.  But if that code panics, then it just sends back
            // an empty buffer.
            if callStatus.errorBuf.len > 0 {
                throw UniffiInternalError.rustPanic(try FfiConverterString.lift(callStatus.errorBuf))
            } else {
                callStatus.errorBuf.deallocate()
                throw UniffiInternalError.rustPanic("Rust panic")
            }

        case CALL_CANCELLED:
            fatalError("Cancellation not supported yet")

        default:
            throw UniffiInternalError.unexpectedRustCallStatusCode
    }
}

private func uniffiTraitInterfaceCall<T>(
    callStatus: UnsafeMutablePointer<RustCallStatus>,
    makeCall: () throws -> T,
    writeReturn: (T) -> ()
) {
    do {
        try writeReturn(makeCall())
    } catch let error {
        callStatus.pointee.code = CALL_UNEXPECTED_ERROR
        callStatus.pointee.errorBuf = FfiConverterString.lower(String(describing: error))
    }
}

private func uniffiTraitInterfaceCallWithError<T, E>(
    callStatus: UnsafeMutablePointer<RustCallStatus>,
    makeCall: () throws -> T,
    writeReturn: (T) -> (),
    lowerError: (E) -> RustBuffer
) {
    do {
        try writeReturn(makeCall())
    } catch let error as E {
        callStatus.pointee.code = CALL_ERROR
        callStatus.pointee.errorBuf = lowerError(error)
    } catch {
        callStatus.pointee.code = CALL_UNEXPECTED_ERROR
        callStatus.pointee.errorBuf = FfiConverterString.lower(String(describing: error))
    }
}
// Initial value and increment amount for handles.
// These ensure that SWIFT handles always have the lowest bit set
fileprivate let UNIFFI_HANDLEMAP_INITIAL: UInt64 = 1
fileprivate let UNIFFI_HANDLEMAP_DELTA: UInt64 = 2

fileprivate final class UniffiHandleMap<T>: @unchecked Sendable {
    // All mutation happens with this lock held, which is why we implement @unchecked Sendable.
    private let lock = NSLock()
    private var map: [UInt64: T] = [:]
    private var currentHandle: UInt64 = UNIFFI_HANDLEMAP_INITIAL

    func insert(obj: T) -> UInt64 {
        lock.withLock {
            return doInsert(obj)
        }
    }

    // Low-level insert function, this assumes `lock` is held.
    private func doInsert(_ obj: T) -> UInt64 {
        let handle = currentHandle
        currentHandle += UNIFFI_HANDLEMAP_DELTA
        map[handle] = obj
        return handle
    }

     func get(handle: UInt64) throws -> T {
        try lock.withLock {
            guard let obj = map[handle] else {
                throw UniffiInternalError.unexpectedStaleHandle
            }
            return obj
        }
    }

     func clone(handle: UInt64) throws -> UInt64 {
        try lock.withLock {
            guard let obj = map[handle] else {
                throw UniffiInternalError.unexpectedStaleHandle
            }
            return doInsert(obj)
        }
    }

    @discardableResult
    func remove(handle: UInt64) throws -> T {
        try lock.withLock {
            guard let obj = map.removeValue(forKey: handle) else {
                throw UniffiInternalError.unexpectedStaleHandle
            }
            return obj
        }
    }

    var count: Int {
        get {
            map.count
        }
    }
}


// Public interface members begin here.


#if swift(>=5.8)
@_documentation(visibility: private)
#endif
fileprivate struct FfiConverterUInt32: FfiConverterPrimitive {
    typealias FfiType = UInt32
    typealias SwiftType = UInt32

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> UInt32 {
        return try lift(readInt(&buf))
    }

    public static func write(_ value: SwiftType, into buf: inout [UInt8]) {
        writeInt(&buf, lower(value))
    }
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
fileprivate struct FfiConverterUInt64: FfiConverterPrimitive {
    typealias FfiType = UInt64
    typealias SwiftType = UInt64

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> UInt64 {
        return try lift(readInt(&buf))
    }

    public static func write(_ value: SwiftType, into buf: inout [UInt8]) {
        writeInt(&buf, lower(value))
    }
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
fileprivate struct FfiConverterInt64: FfiConverterPrimitive {
    typealias FfiType = Int64
    typealias SwiftType = Int64

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> Int64 {
        return try lift(readInt(&buf))
    }

    public static func write(_ value: Int64, into buf: inout [UInt8]) {
        writeInt(&buf, lower(value))
    }
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
fileprivate struct FfiConverterDouble: FfiConverterPrimitive {
    typealias FfiType = Double
    typealias SwiftType = Double

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> Double {
        return try lift(readDouble(&buf))
    }

    public static func write(_ value: Double, into buf: inout [UInt8]) {
        writeDouble(&buf, lower(value))
    }
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
fileprivate struct FfiConverterBool : FfiConverter {
    typealias FfiType = Int8
    typealias SwiftType = Bool

    public static func lift(_ value: Int8) throws -> Bool {
        return value != 0
    }

    public static func lower(_ value: Bool) -> Int8 {
        return value ? 1 : 0
    }

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> Bool {
        return try lift(readInt(&buf))
    }

    public static func write(_ value: Bool, into buf: inout [UInt8]) {
        writeInt(&buf, lower(value))
    }
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
fileprivate struct FfiConverterString: FfiConverter {
    typealias SwiftType = String
    typealias FfiType = RustBuffer

    public static func lift(_ value: RustBuffer) throws -> String {
        defer {
            value.deallocate()
        }
        if value.data == nil {
            return String()
        }
        let bytes = UnsafeBufferPointer<UInt8>(start: value.data!, count: Int(value.len))
        // Use Swift's native UTF-8 decoder; `String(bytes:encoding:.utf8)` goes
        // through Foundation's NSString and silently strips a leading U+FEFF BOM.
        // Invalid UTF-8 substitutes U+FFFD instead of trapping (unreachable
        // given Rust's `String` invariant).
        return String(decoding: bytes, as: UTF8.self)
    }

    public static func lower(_ value: String) -> RustBuffer {
        return value.utf8CString.withUnsafeBufferPointer { ptr in
            // The swift string gives us int8_t, we want uint8_t.
            ptr.withMemoryRebound(to: UInt8.self) { ptr in
                // The swift string gives us a trailing null byte, we don't want it.
                let buf = UnsafeBufferPointer(rebasing: ptr.prefix(upTo: ptr.count - 1))
                return RustBuffer.from(buf)
            }
        }
    }

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> String {
        let len: Int32 = try readInt(&buf)
        // See `lift` above for why we avoid Foundation's NSString-backed decoder here.
        return String(decoding: try readBytes(&buf, count: Int(len)), as: UTF8.self)
    }

    public static func write(_ value: String, into buf: inout [UInt8]) {
        let len = Int32(value.utf8.count)
        writeInt(&buf, len)
        writeBytes(&buf, value.utf8)
    }
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
fileprivate struct FfiConverterData: FfiConverterRustBuffer {
    typealias SwiftType = Data

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> Data {
        let len: Int32 = try readInt(&buf)
        return Data(try readBytes(&buf, count: Int(len)))
    }

    public static func write(_ value: Data, into buf: inout [UInt8]) {
        let len = Int32(value.count)
        writeInt(&buf, len)
        writeBytes(&buf, value)
    }
}




/**
 * An open book. Calls are serialised; none keeps a lock after it returns.
 */
public protocol BookProtocol: AnyObject, Sendable {

    /**
     * Makes entries in a document (`visit:…`, `site:…`, `roster:…`), all or none; they are on the disk
     * when this returns. JSON: `[{says, slot?, replaces?, why?, place?}]`. Returns their ids.
     *
     * # Errors
     * `WrongCall` for other JSON, `Refused` when an entry breaks a rule (no reason, no operator),
     * `NotStored` when the disk refuses.
     */
    func append(subject: String, drafts: String, `operator`: String) throws  -> [String]

    /**
     * Hands over the next photograph of the carry file taken in last, once; nothing when there are no
     * more. The shell keeps the bytes and says so with `photo_taken`.
     */
    func carriedPhoto()  -> Picture?

    /**
     * Takes a carry file in. JSON: `{received, contained, refused, photos, contradictions}`; as many photographs are then
     * to be had from `carried_photo`.
     *
     * # Errors
     * `Refused` when it is none.
     */
    func carryIn(file: Data) throws  -> String

    /**
     * Writes visits with their cars, sites and people into a carry file, with the photographs handed to
     * `carry_photo` since the last one.
     *
     * # Errors
     * `WrongCall` for an unknown visit.
     */
    func carryOut(visits: [String]) throws  -> Data

    /**
     * Takes a photograph's exact bytes for the next carry file, one at a time.
     *
     * # Errors
     * `WrongCall` for bytes that are no photograph known here, or when no more fit into a carry file.
     */
    func carryPhoto(bytes: Data) throws

    /**
     * This device: its public key in hexadecimal.
     */
    func device()  -> String

    /**
     * Everything half typed, as JSON: key -> text.
     *
     * # Errors
     * `NotStored` when the disk cannot be read.
     */
    func drafts() throws  -> String

    /**
     * The signed request to send to the office's enrolment address with a one-time code. The office says
     * its key and its time (milliseconds since 1970) when that address is asked who it is.
     *
     * # Errors
     * `WrongCall` when the key is none.
     */
    func enrolRequest(code: String, name: String, organisationKey: String, serverTime: Int64) throws  -> Data

    /**
     * Takes the office's answer to an enrolment.
     *
     * # Errors
     * `Refused` when the certificate is not this device's or not that organisation's.
     */
    func enrolled(organisationKey: String, certificate: Data) throws

    /**
     * As `enrolled`, with what the organisation's root said of its keys, as it stands in the office's answer: the key
     * that signed the certificate may be one the root named.
     *
     * # Errors
     * As `enrolled`.
     */
    func enrolledWith(organisationKey: String, keyStatements: [Data], certificate: Data) throws

    /**
     * Rows of stays whose car number, seal number or spot contains `text`, as JSON.
     *
     * # Errors
     * None today.
     */
    func find(text: String) throws  -> String

    /**
     * Takes the reply's body. JSON: `{done, size, proven, contradictions: [{kind, sentence}], restored:
     * [{at, size}]}`. A contradiction is no error: records stay, sync goes on, `status` keeps it.
     *
     * # Errors
     * `NotTheOffice` for anything the organisation did not sign; `log_request` may be called again.
     */
    func logReceive(reply: Data) throws  -> String

    /**
     * The next request's body for the office's log address, after a sync; nothing when there is nothing to
     * ask. Call again after `log_receive` says more is to come, or when a reply got lost.
     *
     * # Errors
     * `NotEnrolled`.
     */
    func logRequest() throws  -> Data?

    /**
     * A new site's id, for its first entry.
     */
    func newSite()  -> String

    /**
     * Begins a visit. JSON: `{car, site, receiver, spot?, procedure?}`; the built-in procedure is the
     * default. Returns the visit's id.
     *
     * # Errors
     * `WrongCall` for other JSON, `NotStored` when the disk refuses.
     */
    func openVisit(opening: String, `operator`: String) throws  -> String

    /**
     * How many stays are over, and rows of at most `most` of them after the first `from`, begun last
     * first. JSON: `{of, rows}`.
     *
     * # Errors
     * None today.
     */
    func over(from: UInt32, most: UInt32) throws  -> String

    /**
     * Passes over a blocker, with a reason that the record shows for ever.
     *
     * # Errors
     * `Refused` without a reason, or when nothing of that code blocks now.
     */
    func passOver(visit: String, blocker: String, why: String, `operator`: String) throws  -> [String]

    /**
     * The signed request for a pass to the office's photographs.
     *
     * # Errors
     * `NotEnrolled`.
     */
    func passRequest() throws  -> Data

    /**
     * The people of the organisation, as JSON.
     *
     * # Errors
     * None today.
     */
    func people() throws  -> String

    /**
     * Notes that the shell keeps a photograph's bytes: their SHA-256 in hexadecimal, length and media type.
     * Returns the photograph as statements name it, as JSON.
     *
     * # Errors
     * `NotStored` when the disk refuses.
     */
    func photoTaken(sha256: String, length: UInt64, media: String) throws  -> String

    /**
     * The photographs that visits speak of and whose bytes are here, those first that the office is not
     * known to hold. JSON: `[{sha256, length, media}]`.
     *
     * # Errors
     * `WrongCall` for an unknown visit, `NotStored` when the disk cannot be read.
     */
    func photosOf(visits: [String]) throws  -> String

    /**
     * Photographs the office has not said in a signed reply that it holds, as JSON. Another meeting after
     * sending them shortens the list.
     *
     * # Errors
     * `NotStored` when the disk cannot be read.
     */
    func photosWaiting() throws  -> String

    /**
     * The visit as it would be with `drafts` appended; nothing is kept. For showing what a reading
     * means, with its uncertainty, while it is being typed.
     *
     * # Errors
     * As `append`.
     */
    func preview(visit: String, drafts: String, `operator`: String) throws  -> String

    /**
     * Makes a step's entries and the step's own in one commit. `outcome`: `done`, `not_right`, `skipped`.
     *
     * # Errors
     * As `append`; a skipped step needs a note.
     */
    func recordStep(visit: String, step: String, outcome: String, note: String, drafts: String, `operator`: String) throws  -> [String]

    /**
     * Releases the car.
     *
     * # Errors
     * `Refused`, naming what is still open and was not passed over.
     */
    func release(visit: String, asResidue: Bool, `operator`: String) throws  -> [String]

    /**
     * Keeps something half typed under a key; empty text removes it.
     *
     * # Errors
     * `NotStored` when the disk refuses.
     */
    func setDraft(key: String, text: String) throws

    /**
     * Settles the disagreement that entry `keeps` is part of in its favour.
     *
     * # Errors
     * `Refused` without a reason, or when nothing disagrees about it.
     */
    func settle(visit: String, keeps: String, why: String, `operator`: String) throws  -> [String]

    /**
     * A whole stay in plain words.
     *
     * # Errors
     * As `visit`.
     */
    func show(visit: String) throws  -> String

    /**
     * The sites known here, by id, as JSON.
     *
     * # Errors
     * None today.
     */
    func sites() throws  -> String

    /**
     * Rows of the stays that are not over: the car stands, or the office has not receipted all of it; as
     * JSON. What a phone shows first.
     *
     * # Errors
     * None today.
     */
    func standing() throws  -> String

    /**
     * How this device stands: what only it has, whether it is enrolled, its clock, how the office's log
     * stands, as JSON.
     *
     * # Errors
     * `NotStored` when the disk cannot be read.
     */
    func status() throws  -> String

    /**
     * Takes the reply's body. JSON: `{done, rounds, receipted, received, refused, put_off, set_aside, revoked,
     * ahead_millis, reconciled, differing}`; `refused` is for good, `put_off` is brought again later, `differing`
     * names the records that still differ from the office's.
     *
     * # Errors
     * `NotTheOffice` for anything the organisation did not sign; nothing is lost and `sync_request` may
     * be called again.
     */
    func syncReceive(reply: Data) throws  -> String

    /**
     * The next request's body.
     *
     * # Errors
     * `WrongCall` before `sync_start`.
     */
    func syncRequest() throws  -> Data

    /**
     * Begins a sync with the office; ask for requests until a reply says done.
     *
     * # Errors
     * `NotEnrolled`.
     */
    func syncStart() throws

    /**
     * A whole stay, as JSON.
     *
     * # Errors
     * `WrongCall` when it is not on this device.
     */
    func visit(visit: String) throws  -> String

    /**
     * One row per stay, as JSON.
     *
     * # Errors
     * None today.
     */
    func visits() throws  -> String

    /**
     * Takes an entry back; nothing stands in its place.
     *
     * # Errors
     * `Refused` without a reason, or when the record has no such entry.
     */
    func withdraw(visit: String, entry: String, why: String, `operator`: String) throws  -> [String]

    /**
     * Whether any of these drafts binds the person who makes it: with a key here it is to be unlocked first.
     *
     * # Errors
     * `WrongCall` for other JSON.
     */
    func binds(drafts: String) throws  -> Bool

    /**
     * Gives a person's key another PIN. Takes about two seconds.
     *
     * # Errors
     * As `unlock_person`, and `WeakPin`; the old PIN then stays.
     */
    func changePin(person: String, oldPin: String, newPin: String) throws

    /**
     * Drops a person's key here, for a forgotten PIN. The office ends it; the person makes a new one. What
     * it signed stays signed.
     *
     * # Errors
     * `NoKey`, `NotStored`.
     */
    func forgetPersonKey(person: String) throws

    /**
     * Hands over the random secret of 32 bytes that the shell keeps beside the device's key, made once
     * with `new_key` and apart from the book's own storage. PINs are worth nothing without it.
     *
     * # Errors
     * `WrongCall` for another length.
     */
    func keepBeside(secret: Data) throws

    /**
     * Forgets whoever is unlocked: the shift is over, or the phone changes hands.
     */
    func lockPeople()

    /**
     * Makes a person's key under a six-digit PIN and says so in the roster; it is unlocked then. Takes
     * about a second. Returns the key's sixteen digits, for the telephone.
     *
     * # Errors
     * `WeakPin`, `HasKey` when there is one here already, `NotEnrolled`, `NotStored`.
     */
    func makePersonKey(person: String, pin: String) throws  -> String

    /**
     * Who holds the phone, whose keys live here, and what the organisation decided. JSON: `{holder: {person,
     * how, since, until}?, keys: [{person, key, fingerprint, tries_left, wait_until?, confirmed, ended}],
     * rules: {operator_rights?, unlocking, signature_required}, can_make}`.
     *
     * # Errors
     * `NotStored` when the disk cannot be read.
     */
    func peopleHere() throws  -> String

    /**
     * Unlocks a person's key for the next act that binds, or for the shift, as the organisation decided.
     * Takes about a second.
     *
     * # Errors
     * `WrongPin` with the tries left, `PinWaits`, `KeyLocked`, `KeyEnded`, `NoKey`.
     */
    func unlockPerson(person: String, pin: String) throws

}
/**
 * An open book. Calls are serialised; none keeps a lock after it returns.
 */
open class Book: BookProtocol, @unchecked Sendable {
    fileprivate let handle: UInt64

    /// Used to instantiate a [FFIObject] without an actual handle, for fakes in tests, mostly.
#if swift(>=5.8)
    @_documentation(visibility: private)
#endif
    public struct NoHandle {
        public init() {}
    }

    // TODO: We'd like this to be `private` but for Swifty reasons,
    // we can't implement `FfiConverter` without making this `required` and we can't
    // make it `required` without making it `public`.
#if swift(>=5.8)
    @_documentation(visibility: private)
#endif
    required public init(unsafeFromHandle handle: UInt64) {
        self.handle = handle
    }

    // This constructor can be used to instantiate a fake object.
    // - Parameter noHandle: Placeholder value so we can have a constructor separate from the default empty one that may be implemented for classes extending [FFIObject].
    //
    // - Warning:
    //     Any object instantiated with this constructor cannot be passed to an actual Rust-backed object. Since there isn't a backing handle the FFI lower functions will crash.
#if swift(>=5.8)
    @_documentation(visibility: private)
#endif
    public init(noHandle: NoHandle) {
        self.handle = 0
    }

#if swift(>=5.8)
    @_documentation(visibility: private)
#endif
    public func uniffiCloneHandle() -> UInt64 {
        return try! rustCall { uniffi_farsiding_bindings_fn_clone_book(self.handle, $0) }
    }
    // No primary constructor declared for this class.

    deinit {
        if handle == 0 {
            // Mock objects have handle=0 don't try to free them
            return
        }

        try! rustCall { uniffi_farsiding_bindings_fn_free_book(handle, $0) }
    }


    /**
     * Opens or makes the book `name` in `folder`. `key` is the device's 32-byte Ed25519 secret.
     *
     * # Errors
     * `NoStorage` before `prepare_storage`, `WrongCall` for a key of another length, `Refused` when the
     * file was written by a later version.
     */
public static func `open`(folder: String, name: String, key: Data)throws  -> Book  {
    return try  FfiConverterTypeBook_lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_constructor_book_open(
        FfiConverterString.lower(folder),
        FfiConverterString.lower(name),
        FfiConverterData.lower(key),$0
    )
})
}



    /**
     * Makes entries in a document (`visit:…`, `site:…`, `roster:…`), all or none; they are on the disk
     * when this returns. JSON: `[{says, slot?, replaces?, why?, place?}]`. Returns their ids.
     *
     * # Errors
     * `WrongCall` for other JSON, `Refused` when an entry breaks a rule (no reason, no operator),
     * `NotStored` when the disk refuses.
     */
open func append(subject: String, drafts: String, `operator`: String)throws  -> [String]  {
    return try  FfiConverterSequenceString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_append(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(subject),
        FfiConverterString.lower(drafts),
        FfiConverterString.lower(`operator`),$0
    )
})
}

    /**
     * Hands over the next photograph of the carry file taken in last, once; nothing when there are no
     * more. The shell keeps the bytes and says so with `photo_taken`.
     */
open func carriedPhoto() -> Picture?  {
    return try!  FfiConverterOptionTypePicture.lift(try! rustCall() {
    uniffi_farsiding_bindings_fn_method_book_carried_photo(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Takes a carry file in. JSON: `{received, contained, refused, photos, contradictions}`; as many photographs are then
     * to be had from `carried_photo`.
     *
     * # Errors
     * `Refused` when it is none.
     */
open func carryIn(file: Data)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_carry_in(
            self.uniffiCloneHandle(),
        FfiConverterData.lower(file),$0
    )
})
}

    /**
     * Writes visits with their cars, sites and people into a carry file, with the photographs handed to
     * `carry_photo` since the last one.
     *
     * # Errors
     * `WrongCall` for an unknown visit.
     */
open func carryOut(visits: [String])throws  -> Data  {
    return try  FfiConverterData.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_carry_out(
            self.uniffiCloneHandle(),
        FfiConverterSequenceString.lower(visits),$0
    )
})
}

    /**
     * Takes a photograph's exact bytes for the next carry file, one at a time.
     *
     * # Errors
     * `WrongCall` for bytes that are no photograph known here, or when no more fit into a carry file.
     */
open func carryPhoto(bytes: Data)throws   {try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_carry_photo(
            self.uniffiCloneHandle(),
        FfiConverterData.lower(bytes),$0
    )
}
}

    /**
     * This device: its public key in hexadecimal.
     */
open func device() -> String  {
    return try!  FfiConverterString.lift(try! rustCall() {
    uniffi_farsiding_bindings_fn_method_book_device(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Everything half typed, as JSON: key -> text.
     *
     * # Errors
     * `NotStored` when the disk cannot be read.
     */
open func drafts()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_drafts(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * The signed request to send to the office's enrolment address with a one-time code. The office says
     * its key and its time (milliseconds since 1970) when that address is asked who it is.
     *
     * # Errors
     * `WrongCall` when the key is none.
     */
open func enrolRequest(code: String, name: String, organisationKey: String, serverTime: Int64)throws  -> Data  {
    return try  FfiConverterData.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_enrol_request(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(code),
        FfiConverterString.lower(name),
        FfiConverterString.lower(organisationKey),
        FfiConverterInt64.lower(serverTime),$0
    )
})
}

    /**
     * Takes the office's answer to an enrolment.
     *
     * # Errors
     * `Refused` when the certificate is not this device's or not that organisation's.
     */
open func enrolled(organisationKey: String, certificate: Data)throws   {try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_enrolled(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(organisationKey),
        FfiConverterData.lower(certificate),$0
    )
}
}

    /**
     * As `enrolled`, with what the organisation's root said of its keys, as it stands in the office's answer: the key
     * that signed the certificate may be one the root named.
     *
     * # Errors
     * As `enrolled`.
     */
open func enrolledWith(organisationKey: String, keyStatements: [Data], certificate: Data)throws   {try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_enrolled_with(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(organisationKey),
        FfiConverterSequenceData.lower(keyStatements),
        FfiConverterData.lower(certificate),$0
    )
}
}

    /**
     * Rows of stays whose car number, seal number or spot contains `text`, as JSON.
     *
     * # Errors
     * None today.
     */
open func find(text: String)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_find(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(text),$0
    )
})
}

    /**
     * Takes the reply's body. JSON: `{done, size, proven, contradictions: [{kind, sentence}], restored:
     * [{at, size}]}`. A contradiction is no error: records stay, sync goes on, `status` keeps it.
     *
     * # Errors
     * `NotTheOffice` for anything the organisation did not sign; `log_request` may be called again.
     */
open func logReceive(reply: Data)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_log_receive(
            self.uniffiCloneHandle(),
        FfiConverterData.lower(reply),$0
    )
})
}

    /**
     * The next request's body for the office's log address, after a sync; nothing when there is nothing to
     * ask. Call again after `log_receive` says more is to come, or when a reply got lost.
     *
     * # Errors
     * `NotEnrolled`.
     */
open func logRequest()throws  -> Data?  {
    return try  FfiConverterOptionData.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_log_request(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * A new site's id, for its first entry.
     */
open func newSite() -> String  {
    return try!  FfiConverterString.lift(try! rustCall() {
    uniffi_farsiding_bindings_fn_method_book_new_site(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Begins a visit. JSON: `{car, site, receiver, spot?, procedure?}`; the built-in procedure is the
     * default. Returns the visit's id.
     *
     * # Errors
     * `WrongCall` for other JSON, `NotStored` when the disk refuses.
     */
open func openVisit(opening: String, `operator`: String)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_open_visit(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(opening),
        FfiConverterString.lower(`operator`),$0
    )
})
}

    /**
     * How many stays are over, and rows of at most `most` of them after the first `from`, begun last
     * first. JSON: `{of, rows}`.
     *
     * # Errors
     * None today.
     */
open func over(from: UInt32, most: UInt32)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_over(
            self.uniffiCloneHandle(),
        FfiConverterUInt32.lower(from),
        FfiConverterUInt32.lower(most),$0
    )
})
}

    /**
     * Passes over a blocker, with a reason that the record shows for ever.
     *
     * # Errors
     * `Refused` without a reason, or when nothing of that code blocks now.
     */
open func passOver(visit: String, blocker: String, why: String, `operator`: String)throws  -> [String]  {
    return try  FfiConverterSequenceString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_pass_over(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(visit),
        FfiConverterString.lower(blocker),
        FfiConverterString.lower(why),
        FfiConverterString.lower(`operator`),$0
    )
})
}

    /**
     * The signed request for a pass to the office's photographs.
     *
     * # Errors
     * `NotEnrolled`.
     */
open func passRequest()throws  -> Data  {
    return try  FfiConverterData.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_pass_request(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * The people of the organisation, as JSON.
     *
     * # Errors
     * None today.
     */
open func people()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_people(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Notes that the shell keeps a photograph's bytes: their SHA-256 in hexadecimal, length and media type.
     * Returns the photograph as statements name it, as JSON.
     *
     * # Errors
     * `NotStored` when the disk refuses.
     */
open func photoTaken(sha256: String, length: UInt64, media: String)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_photo_taken(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(sha256),
        FfiConverterUInt64.lower(length),
        FfiConverterString.lower(media),$0
    )
})
}

    /**
     * The photographs that visits speak of and whose bytes are here, those first that the office is not
     * known to hold. JSON: `[{sha256, length, media}]`.
     *
     * # Errors
     * `WrongCall` for an unknown visit, `NotStored` when the disk cannot be read.
     */
open func photosOf(visits: [String])throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_photos_of(
            self.uniffiCloneHandle(),
        FfiConverterSequenceString.lower(visits),$0
    )
})
}

    /**
     * Photographs the office has not said in a signed reply that it holds, as JSON. Another meeting after
     * sending them shortens the list.
     *
     * # Errors
     * `NotStored` when the disk cannot be read.
     */
open func photosWaiting()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_photos_waiting(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * The visit as it would be with `drafts` appended; nothing is kept. For showing what a reading
     * means, with its uncertainty, while it is being typed.
     *
     * # Errors
     * As `append`.
     */
open func preview(visit: String, drafts: String, `operator`: String)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_preview(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(visit),
        FfiConverterString.lower(drafts),
        FfiConverterString.lower(`operator`),$0
    )
})
}

    /**
     * Makes a step's entries and the step's own in one commit. `outcome`: `done`, `not_right`, `skipped`.
     *
     * # Errors
     * As `append`; a skipped step needs a note.
     */
open func recordStep(visit: String, step: String, outcome: String, note: String, drafts: String, `operator`: String)throws  -> [String]  {
    return try  FfiConverterSequenceString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_record_step(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(visit),
        FfiConverterString.lower(step),
        FfiConverterString.lower(outcome),
        FfiConverterString.lower(note),
        FfiConverterString.lower(drafts),
        FfiConverterString.lower(`operator`),$0
    )
})
}

    /**
     * Releases the car.
     *
     * # Errors
     * `Refused`, naming what is still open and was not passed over.
     */
open func release(visit: String, asResidue: Bool, `operator`: String)throws  -> [String]  {
    return try  FfiConverterSequenceString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_release(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(visit),
        FfiConverterBool.lower(asResidue),
        FfiConverterString.lower(`operator`),$0
    )
})
}

    /**
     * Keeps something half typed under a key; empty text removes it.
     *
     * # Errors
     * `NotStored` when the disk refuses.
     */
open func setDraft(key: String, text: String)throws   {try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_set_draft(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(key),
        FfiConverterString.lower(text),$0
    )
}
}

    /**
     * Settles the disagreement that entry `keeps` is part of in its favour.
     *
     * # Errors
     * `Refused` without a reason, or when nothing disagrees about it.
     */
open func settle(visit: String, keeps: String, why: String, `operator`: String)throws  -> [String]  {
    return try  FfiConverterSequenceString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_settle(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(visit),
        FfiConverterString.lower(keeps),
        FfiConverterString.lower(why),
        FfiConverterString.lower(`operator`),$0
    )
})
}

    /**
     * A whole stay in plain words.
     *
     * # Errors
     * As `visit`.
     */
open func show(visit: String)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_show(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(visit),$0
    )
})
}

    /**
     * The sites known here, by id, as JSON.
     *
     * # Errors
     * None today.
     */
open func sites()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_sites(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Rows of the stays that are not over: the car stands, or the office has not receipted all of it; as
     * JSON. What a phone shows first.
     *
     * # Errors
     * None today.
     */
open func standing()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_standing(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * How this device stands: what only it has, whether it is enrolled, its clock, how the office's log
     * stands, as JSON.
     *
     * # Errors
     * `NotStored` when the disk cannot be read.
     */
open func status()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_status(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Takes the reply's body. JSON: `{done, rounds, receipted, received, refused, put_off, set_aside, revoked,
     * ahead_millis, reconciled, differing}`; `refused` is for good, `put_off` is brought again later, `differing`
     * names the records that still differ from the office's.
     *
     * # Errors
     * `NotTheOffice` for anything the organisation did not sign; nothing is lost and `sync_request` may
     * be called again.
     */
open func syncReceive(reply: Data)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_sync_receive(
            self.uniffiCloneHandle(),
        FfiConverterData.lower(reply),$0
    )
})
}

    /**
     * The next request's body.
     *
     * # Errors
     * `WrongCall` before `sync_start`.
     */
open func syncRequest()throws  -> Data  {
    return try  FfiConverterData.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_sync_request(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Begins a sync with the office; ask for requests until a reply says done.
     *
     * # Errors
     * `NotEnrolled`.
     */
open func syncStart()throws   {try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_sync_start(
            self.uniffiCloneHandle(),$0
    )
}
}

    /**
     * A whole stay, as JSON.
     *
     * # Errors
     * `WrongCall` when it is not on this device.
     */
open func visit(visit: String)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_visit(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(visit),$0
    )
})
}

    /**
     * One row per stay, as JSON.
     *
     * # Errors
     * None today.
     */
open func visits()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_visits(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Takes an entry back; nothing stands in its place.
     *
     * # Errors
     * `Refused` without a reason, or when the record has no such entry.
     */
open func withdraw(visit: String, entry: String, why: String, `operator`: String)throws  -> [String]  {
    return try  FfiConverterSequenceString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_withdraw(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(visit),
        FfiConverterString.lower(entry),
        FfiConverterString.lower(why),
        FfiConverterString.lower(`operator`),$0
    )
})
}

    /**
     * Whether any of these drafts binds the person who makes it: with a key here it is to be unlocked first.
     *
     * # Errors
     * `WrongCall` for other JSON.
     */
open func binds(drafts: String)throws  -> Bool  {
    return try  FfiConverterBool.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_binds(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(drafts),$0
    )
})
}

    /**
     * Gives a person's key another PIN. Takes about two seconds.
     *
     * # Errors
     * As `unlock_person`, and `WeakPin`; the old PIN then stays.
     */
open func changePin(person: String, oldPin: String, newPin: String)throws   {try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_change_pin(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(person),
        FfiConverterString.lower(oldPin),
        FfiConverterString.lower(newPin),$0
    )
}
}

    /**
     * Drops a person's key here, for a forgotten PIN. The office ends it; the person makes a new one. What
     * it signed stays signed.
     *
     * # Errors
     * `NoKey`, `NotStored`.
     */
open func forgetPersonKey(person: String)throws   {try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_forget_person_key(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(person),$0
    )
}
}

    /**
     * Hands over the random secret of 32 bytes that the shell keeps beside the device's key, made once
     * with `new_key` and apart from the book's own storage. PINs are worth nothing without it.
     *
     * # Errors
     * `WrongCall` for another length.
     */
open func keepBeside(secret: Data)throws   {try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_keep_beside(
            self.uniffiCloneHandle(),
        FfiConverterData.lower(secret),$0
    )
}
}

    /**
     * Forgets whoever is unlocked: the shift is over, or the phone changes hands.
     */
open func lockPeople()  {try! rustCall() {
    uniffi_farsiding_bindings_fn_method_book_lock_people(
            self.uniffiCloneHandle(),$0
    )
}
}

    /**
     * Makes a person's key under a six-digit PIN and says so in the roster; it is unlocked then. Takes
     * about a second. Returns the key's sixteen digits, for the telephone.
     *
     * # Errors
     * `WeakPin`, `HasKey` when there is one here already, `NotEnrolled`, `NotStored`.
     */
open func makePersonKey(person: String, pin: String)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_make_person_key(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(person),
        FfiConverterString.lower(pin),$0
    )
})
}

    /**
     * Who holds the phone, whose keys live here, and what the organisation decided. JSON: `{holder: {person,
     * how, since, until}?, keys: [{person, key, fingerprint, tries_left, wait_until?, confirmed, ended}],
     * rules: {operator_rights?, unlocking, signature_required}, can_make}`.
     *
     * # Errors
     * `NotStored` when the disk cannot be read.
     */
open func peopleHere()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_people_here(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Unlocks a person's key for the next act that binds, or for the shift, as the organisation decided.
     * Takes about a second.
     *
     * # Errors
     * `WrongPin` with the tries left, `PinWaits`, `KeyLocked`, `KeyEnded`, `NoKey`.
     */
open func unlockPerson(person: String, pin: String)throws   {try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_method_book_unlock_person(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(person),
        FfiConverterString.lower(pin),$0
    )
}
}



}


#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public struct FfiConverterTypeBook: FfiConverter {
    typealias FfiType = UInt64
    typealias SwiftType = Book

    public static func lift(_ handle: UInt64) throws -> Book {
        return Book(unsafeFromHandle: handle)
    }

    public static func lower(_ value: Book) -> UInt64 {
        return value.uniffiCloneHandle()
    }

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> Book {
        let handle: UInt64 = try readInt(&buf)
        return try lift(handle)
    }

    public static func write(_ value: Book, into buf: inout [UInt8]) {
        writeInt(&buf, lower(value))
    }
}


#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public func FfiConverterTypeBook_lift(_ handle: UInt64) throws -> Book {
    return try FfiConverterTypeBook.lift(handle)
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public func FfiConverterTypeBook_lower(_ value: Book) -> UInt64 {
    return FfiConverterTypeBook.lower(value)
}




/**
 * A reading of what was typed.
 */
public struct AmountReading: Equatable, Hashable {
    /**
     * The amount as it goes into a statement, as JSON; its text is exactly what was typed.
     */
    public var amount: String
    /**
     * The number, in `unit`.
     */
    public var value: Double
    /**
     * The unit's symbol, from the text or else as chosen.
     */
    public var unit: String
    /**
     * The number with its unit, for people: "32650 gal".
     */
    public var shown: String

    // Default memberwise initializers are never public by default, so we
    // declare one manually.
    public init(
        /**
         * The amount as it goes into a statement, as JSON; its text is exactly what was typed.
         */amount: String,
        /**
         * The number, in `unit`.
         */value: Double,
        /**
         * The unit's symbol, from the text or else as chosen.
         */unit: String,
        /**
         * The number with its unit, for people: "32650 gal".
         */shown: String) {
        self.amount = amount
        self.value = value
        self.unit = unit
        self.shown = shown
    }




}

#if compiler(>=6)
extension AmountReading: Sendable {}
#endif

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public struct FfiConverterTypeAmountReading: FfiConverterRustBuffer {
    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> AmountReading {
        return
            try AmountReading(
                amount: FfiConverterString.read(from: &buf),
                value: FfiConverterDouble.read(from: &buf),
                unit: FfiConverterString.read(from: &buf),
                shown: FfiConverterString.read(from: &buf)
        )
    }

    public static func write(_ value: AmountReading, into buf: inout [UInt8]) {
        FfiConverterString.write(value.amount, into: &buf)
        FfiConverterDouble.write(value.value, into: &buf)
        FfiConverterString.write(value.unit, into: &buf)
        FfiConverterString.write(value.shown, into: &buf)
    }
}


#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public func FfiConverterTypeAmountReading_lift(_ buf: RustBuffer) throws -> AmountReading {
    return try FfiConverterTypeAmountReading.lift(buf)
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public func FfiConverterTypeAmountReading_lower(_ value: AmountReading) -> RustBuffer {
    return FfiConverterTypeAmountReading.lower(value)
}


/**
 * A photograph's exact bytes out of a carry file.
 */
public struct Picture: Equatable, Hashable {
    /**
     * Media type, such as `image/jpeg`.
     */
    public var media: String
    /**
     * The bytes.
     */
    public var bytes: Data

    // Default memberwise initializers are never public by default, so we
    // declare one manually.
    public init(
        /**
         * Media type, such as `image/jpeg`.
         */media: String,
        /**
         * The bytes.
         */bytes: Data) {
        self.media = media
        self.bytes = bytes
    }




}

#if compiler(>=6)
extension Picture: Sendable {}
#endif

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public struct FfiConverterTypePicture: FfiConverterRustBuffer {
    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> Picture {
        return
            try Picture(
                media: FfiConverterString.read(from: &buf),
                bytes: FfiConverterData.read(from: &buf)
        )
    }

    public static func write(_ value: Picture, into buf: inout [UInt8]) {
        FfiConverterString.write(value.media, into: &buf)
        FfiConverterData.write(value.bytes, into: &buf)
    }
}


#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public func FfiConverterTypePicture_lift(_ buf: RustBuffer) throws -> Picture {
    return try FfiConverterTypePicture.lift(buf)
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public func FfiConverterTypePicture_lower(_ value: Picture) -> RustBuffer {
    return FfiConverterTypePicture.lower(value)
}


/**
 * What was typed, read: one amount, or two to choose from, or none and why.
 */
public struct ReadAmount: Equatable, Hashable {
    /**
     * Exactly what was typed.
     */
    public var text: String
    /**
     * One where the text says one thing; two, with decimals and with thousands, where only whoever typed it knows;
     * none where it is no amount.
     */
    public var readings: [AmountReading]
    /**
     * Why it is not one amount, by a stable name: `nothing`, `not_a_number`, `trailing_text`, `two_readings`, `cannot_be`,
     * `other_kind`. Empty where it is one.
     */
    public var refused: String
    /**
     * The same in an English sentence.
     */
    public var why: String

    // Default memberwise initializers are never public by default, so we
    // declare one manually.
    public init(
        /**
         * Exactly what was typed.
         */text: String,
        /**
         * One where the text says one thing; two, with decimals and with thousands, where only whoever typed it knows;
         * none where it is no amount.
         */readings: [AmountReading],
        /**
         * Why it is not one amount, by a stable name: `nothing`, `not_a_number`, `trailing_text`, `two_readings`, `cannot_be`,
         * `other_kind`. Empty where it is one.
         */refused: String,
        /**
         * The same in an English sentence.
         */why: String) {
        self.text = text
        self.readings = readings
        self.refused = refused
        self.why = why
    }




}

#if compiler(>=6)
extension ReadAmount: Sendable {}
#endif

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public struct FfiConverterTypeReadAmount: FfiConverterRustBuffer {
    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> ReadAmount {
        return
            try ReadAmount(
                text: FfiConverterString.read(from: &buf),
                readings: FfiConverterSequenceTypeAmountReading.read(from: &buf),
                refused: FfiConverterString.read(from: &buf),
                why: FfiConverterString.read(from: &buf)
        )
    }

    public static func write(_ value: ReadAmount, into buf: inout [UInt8]) {
        FfiConverterString.write(value.text, into: &buf)
        FfiConverterSequenceTypeAmountReading.write(value.readings, into: &buf)
        FfiConverterString.write(value.refused, into: &buf)
        FfiConverterString.write(value.why, into: &buf)
    }
}


#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public func FfiConverterTypeReadAmount_lift(_ buf: RustBuffer) throws -> ReadAmount {
    return try FfiConverterTypeReadAmount.lift(buf)
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public func FfiConverterTypeReadAmount_lower(_ value: ReadAmount) -> RustBuffer {
    return FfiConverterTypeReadAmount.lower(value)
}


/**
 * What went wrong, as far as the caller can do something about it.
 *
 * `why` is for the log and the support call, in English, never the only thing shown.
 */
public enum Trouble: Swift.Error, Equatable, Hashable, Foundation.LocalizedError {



    /**
     * Another tab, window or program holds the book: use that one, or close it.
     */
    case OpenElsewhere(
        /**
         * What the storage said.
         */why: String
    )
    /**
     * This place cannot keep records (private window, no such folder, no permission): use another.
     */
    case NoStorage(
        /**
         * What the storage said.
         */why: String
    )
    /**
     * The disk refused or is full: free space, then try again. Nothing was lost that was confirmed.
     */
    case NotStored(
        /**
         * What the storage said.
         */why: String
    )
    /**
     * What was handed over is not what it claims to be, so it was refused whole.
     */
    case Refused(
        /**
         * Which rule it broke.
         */why: String
    )
    /**
     * What answered is not the office server: a login page in between, or another address.
     */
    case NotTheOffice(
        /**
         * What was wrong with it.
         */why: String
    )
    /**
     * This device has not been enrolled yet: records are kept, but nothing is sent.
     */
    case NotEnrolled(
        /**
         * What was asked for.
         */why: String
    )
    /**
     * A PIN that is not six digits, or among the first that anybody tries: choose another.
     */
    case WeakPin(
        /**
         * What is wrong with it.
         */why: String
    )
    /**
     * The PIN was wrong: try again, or say it is forgotten.
     */
    case WrongPin(
        /**
         * For the log.
         */why: String,
        /**
         * How many tries are left before the key is locked here for good.
         */left: UInt32
    )
    /**
     * Too many wrong tries: wait, or say it is forgotten.
     */
    case PinWaits(
        /**
         * For the log.
         */why: String,
        /**
         * From when it may be tried again, milliseconds since 1970 by this device's clock.
         */until: Int64
    )
    /**
     * The key is locked here for good: tell the office, and make a new one.
     */
    case KeyLocked(
        /**
         * For the log.
         */why: String
    )
    /**
     * The office ended the key: make a new one.
     */
    case KeyEnded(
        /**
         * For the log.
         */why: String
    )
    /**
     * This person has no key here: make one, or go on without.
     */
    case NoKey(
        /**
         * For the log.
         */why: String
    )
    /**
     * This person has a key here already: unlock it, or say its PIN is forgotten.
     */
    case HasKey(
        /**
         * For the log.
         */why: String
    )
    /**
     * A mistake in the calling program, such as a key of the wrong length.
     */
    case WrongCall(
        /**
         * Which argument, and what it should have been.
         */why: String
    )






    public var errorDescription: String? {
        String(reflecting: self)
    }

}

#if compiler(>=6)
extension Trouble: Sendable {}
#endif

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public struct FfiConverterTypeTrouble: FfiConverterRustBuffer {
    typealias SwiftType = Trouble

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> Trouble {
        let variant: Int32 = try readInt(&buf)
        switch variant {




        case 1: return .OpenElsewhere(
            why: try FfiConverterString.read(from: &buf)
            )
        case 2: return .NoStorage(
            why: try FfiConverterString.read(from: &buf)
            )
        case 3: return .NotStored(
            why: try FfiConverterString.read(from: &buf)
            )
        case 4: return .Refused(
            why: try FfiConverterString.read(from: &buf)
            )
        case 5: return .NotTheOffice(
            why: try FfiConverterString.read(from: &buf)
            )
        case 6: return .NotEnrolled(
            why: try FfiConverterString.read(from: &buf)
            )
        case 7: return .WeakPin(
            why: try FfiConverterString.read(from: &buf)
            )
        case 8: return .WrongPin(
            why: try FfiConverterString.read(from: &buf),
            left: try FfiConverterUInt32.read(from: &buf)
            )
        case 9: return .PinWaits(
            why: try FfiConverterString.read(from: &buf),
            until: try FfiConverterInt64.read(from: &buf)
            )
        case 10: return .KeyLocked(
            why: try FfiConverterString.read(from: &buf)
            )
        case 11: return .KeyEnded(
            why: try FfiConverterString.read(from: &buf)
            )
        case 12: return .NoKey(
            why: try FfiConverterString.read(from: &buf)
            )
        case 13: return .HasKey(
            why: try FfiConverterString.read(from: &buf)
            )
        case 14: return .WrongCall(
            why: try FfiConverterString.read(from: &buf)
            )

         default: throw UniffiInternalError.unexpectedEnumCase
        }
    }

    public static func write(_ value: Trouble, into buf: inout [UInt8]) {
        switch value {





        case let .OpenElsewhere(why):
            writeInt(&buf, Int32(1))
            FfiConverterString.write(why, into: &buf)


        case let .NoStorage(why):
            writeInt(&buf, Int32(2))
            FfiConverterString.write(why, into: &buf)


        case let .NotStored(why):
            writeInt(&buf, Int32(3))
            FfiConverterString.write(why, into: &buf)


        case let .Refused(why):
            writeInt(&buf, Int32(4))
            FfiConverterString.write(why, into: &buf)


        case let .NotTheOffice(why):
            writeInt(&buf, Int32(5))
            FfiConverterString.write(why, into: &buf)


        case let .NotEnrolled(why):
            writeInt(&buf, Int32(6))
            FfiConverterString.write(why, into: &buf)


        case let .WeakPin(why):
            writeInt(&buf, Int32(7))
            FfiConverterString.write(why, into: &buf)


        case let .WrongPin(why,left):
            writeInt(&buf, Int32(8))
            FfiConverterString.write(why, into: &buf)
            FfiConverterUInt32.write(left, into: &buf)


        case let .PinWaits(why,until):
            writeInt(&buf, Int32(9))
            FfiConverterString.write(why, into: &buf)
            FfiConverterInt64.write(until, into: &buf)


        case let .KeyLocked(why):
            writeInt(&buf, Int32(10))
            FfiConverterString.write(why, into: &buf)


        case let .KeyEnded(why):
            writeInt(&buf, Int32(11))
            FfiConverterString.write(why, into: &buf)


        case let .NoKey(why):
            writeInt(&buf, Int32(12))
            FfiConverterString.write(why, into: &buf)


        case let .HasKey(why):
            writeInt(&buf, Int32(13))
            FfiConverterString.write(why, into: &buf)


        case let .WrongCall(why):
            writeInt(&buf, Int32(14))
            FfiConverterString.write(why, into: &buf)

        }
    }
}


#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public func FfiConverterTypeTrouble_lift(_ buf: RustBuffer) throws -> Trouble {
    return try FfiConverterTypeTrouble.lift(buf)
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public func FfiConverterTypeTrouble_lower(_ value: Trouble) -> RustBuffer {
    return FfiConverterTypeTrouble.lower(value)
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
fileprivate struct FfiConverterOptionString: FfiConverterRustBuffer {
    typealias SwiftType = String?

    public static func write(_ value: SwiftType, into buf: inout [UInt8]) {
        guard let value = value else {
            writeInt(&buf, Int8(0))
            return
        }
        writeInt(&buf, Int8(1))
        FfiConverterString.write(value, into: &buf)
    }

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> SwiftType {
        switch try readInt(&buf) as Int8 {
        case 0: return nil
        case 1: return try FfiConverterString.read(from: &buf)
        default: throw UniffiInternalError.unexpectedOptionalTag
        }
    }
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
fileprivate struct FfiConverterOptionData: FfiConverterRustBuffer {
    typealias SwiftType = Data?

    public static func write(_ value: SwiftType, into buf: inout [UInt8]) {
        guard let value = value else {
            writeInt(&buf, Int8(0))
            return
        }
        writeInt(&buf, Int8(1))
        FfiConverterData.write(value, into: &buf)
    }

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> SwiftType {
        switch try readInt(&buf) as Int8 {
        case 0: return nil
        case 1: return try FfiConverterData.read(from: &buf)
        default: throw UniffiInternalError.unexpectedOptionalTag
        }
    }
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
fileprivate struct FfiConverterOptionTypePicture: FfiConverterRustBuffer {
    typealias SwiftType = Picture?

    public static func write(_ value: SwiftType, into buf: inout [UInt8]) {
        guard let value = value else {
            writeInt(&buf, Int8(0))
            return
        }
        writeInt(&buf, Int8(1))
        FfiConverterTypePicture.write(value, into: &buf)
    }

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> SwiftType {
        switch try readInt(&buf) as Int8 {
        case 0: return nil
        case 1: return try FfiConverterTypePicture.read(from: &buf)
        default: throw UniffiInternalError.unexpectedOptionalTag
        }
    }
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
fileprivate struct FfiConverterSequenceString: FfiConverterRustBuffer {
    typealias SwiftType = [String]

    public static func write(_ value: [String], into buf: inout [UInt8]) {
        let len = Int32(value.count)
        writeInt(&buf, len)
        for item in value {
            FfiConverterString.write(item, into: &buf)
        }
    }

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> [String] {
        let len: Int32 = try readInt(&buf)
        var seq = [String]()
        seq.reserveCapacity(Int(len))
        for _ in 0 ..< len {
            seq.append(try FfiConverterString.read(from: &buf))
        }
        return seq
    }
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
fileprivate struct FfiConverterSequenceData: FfiConverterRustBuffer {
    typealias SwiftType = [Data]

    public static func write(_ value: [Data], into buf: inout [UInt8]) {
        let len = Int32(value.count)
        writeInt(&buf, len)
        for item in value {
            FfiConverterData.write(item, into: &buf)
        }
    }

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> [Data] {
        let len: Int32 = try readInt(&buf)
        var seq = [Data]()
        seq.reserveCapacity(Int(len))
        for _ in 0 ..< len {
            seq.append(try FfiConverterData.read(from: &buf))
        }
        return seq
    }
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
fileprivate struct FfiConverterSequenceTypeAmountReading: FfiConverterRustBuffer {
    typealias SwiftType = [AmountReading]

    public static func write(_ value: [AmountReading], into buf: inout [UInt8]) {
        let len = Int32(value.count)
        writeInt(&buf, len)
        for item in value {
            FfiConverterTypeAmountReading.write(item, into: &buf)
        }
    }

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> [AmountReading] {
        let len: Int32 = try readInt(&buf)
        var seq = [AmountReading]()
        seq.reserveCapacity(Int(len))
        for _ in 0 ..< len {
            seq.append(try FfiConverterTypeAmountReading.read(from: &buf))
        }
        return seq
    }
}
private let UNIFFI_RUST_FUTURE_POLL_READY: Int8 = 0
private let UNIFFI_RUST_FUTURE_POLL_WAKE: Int8 = 1

fileprivate let uniffiContinuationHandleMap = UniffiHandleMap<UnsafeContinuation<Int8, Never>>()

fileprivate func uniffiRustCallAsync<F, T>(
    rustFutureFunc: () -> UInt64,
    pollFunc: (UInt64, @escaping UniffiRustFutureContinuationCallback, UInt64) -> (),
    completeFunc: (UInt64, UnsafeMutablePointer<RustCallStatus>) -> F,
    freeFunc: (UInt64) -> (),
    liftFunc: (F) throws -> T,
    errorHandler: ((RustBuffer) throws -> Swift.Error)?
) async throws -> T {
    // Make sure to call the ensure init function since future creation doesn't have a
    // RustCallStatus param, so doesn't use makeRustCall()
    uniffiEnsureFarsidingBindingsInitialized()
    let rustFuture = rustFutureFunc()
    defer {
        freeFunc(rustFuture)
    }
    var pollResult: Int8;
    repeat {
        pollResult = await withUnsafeContinuation {
            pollFunc(
                rustFuture,
                { handle, pollResult in
                    uniffiFutureContinuationCallback(handle: handle, pollResult: pollResult)
                },
                uniffiContinuationHandleMap.insert(obj: $0)
            )
        }
    } while pollResult != UNIFFI_RUST_FUTURE_POLL_READY

    return try liftFunc(makeRustCall(
        { completeFunc(rustFuture, $0) },
        errorHandler: errorHandler
    ))
}

// Callback handlers for an async calls.  These are invoked by Rust when the future is ready.  They
// lift the return value or error and resume the suspended function.
fileprivate func uniffiFutureContinuationCallback(handle: UInt64, pollResult: Int8) {
    if let continuation = try? uniffiContinuationHandleMap.remove(handle: handle) {
        continuation.resume(returning: pollResult)
    } else {
        print("uniffiFutureContinuationCallback invalid handle")
    }
}
/**
 * Answers one line of JSON for a formula by its name, as `farsiding calc` does. Never fails: what is
 * wrong with the line is said in the answer.
 */
public func calculate(formula: String, line: String) -> String  {
    return try!  FfiConverterString.lift(try! rustCall() {
    uniffi_farsiding_bindings_fn_func_calculate(
        FfiConverterString.lower(formula),
        FfiConverterString.lower(line),$0
    )
})
}
/**
 * Every formula with its inputs, ranges and source, as JSON.
 */
public func formulas() -> String  {
    return try!  FfiConverterString.lift(try! rustCall() {
    uniffi_farsiding_bindings_fn_func_formulas($0
    )
})
}
/**
 * Reads what was typed where an amount in `unit` is asked for, unless the text names another unit of its kind.
 * `decimal_mark` (`.` or `,`) is the mark usual where it was typed; without it a text that says two things ("32,650",
 * "1.234") is answered with both.
 *
 * # Errors
 * `WrongCall` when `unit` is no symbol the core knows, or the mark is neither point nor comma.
 */
public func readAmount(text: String, unit: String, decimalMark: String?)throws  -> ReadAmount  {
    return try  FfiConverterTypeReadAmount_lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_func_read_amount(
        FfiConverterString.lower(text),
        FfiConverterString.lower(unit),
        FfiConverterOptionString.lower(decimalMark),$0
    )
})
}
/**
 * A new device key: 32 secret bytes, which the shell keeps where the platform keeps secrets.
 *
 * # Errors
 * `NoStorage` when the platform has no randomness.
 */
public func newKey()throws  -> Data  {
    return try  FfiConverterData.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_func_new_key($0
    )
})
}
/**
 * Whether these six digits may be chosen for a PIN.
 *
 * # Errors
 * `WeakPin` when they are not six, or among the first that anybody tries.
 */
public func pinMayBeChosen(pin: String)throws   {try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_func_pin_may_be_chosen(
        FfiConverterString.lower(pin),$0
    )
}
}
/**
 * The key that a shell seals its storage under where a PIN opens the phone (Argon2id, 64 MiB, three
 * passes): 32 bytes out of six digits, a random salt of 16 bytes and the 32 bytes kept beside. Takes about
 * a second.
 *
 * # Errors
 * `WeakPin` when these are no six digits, `WrongCall` for other lengths.
 */
public func pinStorageKey(pin: String, beside: Data, salt: Data)throws  -> Data  {
    return try  FfiConverterData.lift(try rustCallWithError(FfiConverterTypeTrouble_lift) {
    uniffi_farsiding_bindings_fn_func_pin_storage_key(
        FfiConverterString.lower(pin),
        FfiConverterData.lower(beside),
        FfiConverterData.lower(salt),$0
    )
})
}
/**
 * Version of the core, as `major.minor.patch`, for the about page and for support.
 */
public func coreVersion() -> String  {
    return try!  FfiConverterString.lift(try! rustCall() {
    uniffi_farsiding_bindings_fn_func_core_version($0
    )
})
}
/**
 * Makes `folder` ready for books; wait for it before opening one. Idempotent.
 *
 * Natively it creates the folder. In a browser it must run in a dedicated worker and takes hold of the
 * origin's private file system, which one worker at a time can do.
 *
 * # Errors
 * `OpenElsewhere` when another tab holds it, `NoStorage` where nothing durable exists (private window).
 */
public func prepareStorage(folder: String)async throws   {
    return
        try  await uniffiRustCallAsync(
            rustFutureFunc: {
                uniffi_farsiding_bindings_fn_func_prepare_storage(FfiConverterString.lower(folder)
                )
            },
            pollFunc: ffi_farsiding_bindings_rust_future_poll_void,
            completeFunc: ffi_farsiding_bindings_rust_future_complete_void,
            freeFunc: ffi_farsiding_bindings_rust_future_free_void,
            liftFunc: { $0 },
            errorHandler: FfiConverterTypeTrouble_lift
        )
}

private enum InitializationResult {
    case ok
    case contractVersionMismatch
    case apiChecksumMismatch
}
// Use a global variable to perform the versioning checks. Swift ensures that
// the code inside is only computed once.
private let initializationResult: InitializationResult = {
    // Get the bindings contract version from our ComponentInterface
    let bindings_contract_version = 30
    // Get the scaffolding contract version by calling the into the dylib
    let scaffolding_contract_version = ffi_farsiding_bindings_uniffi_contract_version()
    if bindings_contract_version != scaffolding_contract_version {
        return InitializationResult.contractVersionMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_calculate() != 57635) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_formulas() != 59462) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_read_amount() != 39637) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_new_key() != 36954) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_pin_may_be_chosen() != 63421) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_pin_storage_key() != 6534) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_core_version() != 5233) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_prepare_storage() != 59990) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_append() != 54987) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_carried_photo() != 24168) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_carry_in() != 6974) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_carry_out() != 23899) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_carry_photo() != 63051) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_device() != 9324) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_drafts() != 19836) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_enrol_request() != 1650) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_enrolled() != 58253) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_enrolled_with() != 46008) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_find() != 24144) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_log_receive() != 56512) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_log_request() != 60942) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_new_site() != 47209) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_open_visit() != 37032) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_over() != 52897) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_pass_over() != 42777) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_pass_request() != 43067) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_people() != 58133) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_photo_taken() != 45557) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_photos_of() != 21127) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_photos_waiting() != 21381) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_preview() != 38799) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_record_step() != 44668) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_release() != 47381) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_set_draft() != 47434) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_settle() != 39182) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_show() != 57003) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_sites() != 32737) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_standing() != 2301) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_status() != 61795) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_sync_receive() != 6041) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_sync_request() != 49957) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_sync_start() != 60695) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_visit() != 26207) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_visits() != 55744) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_withdraw() != 8616) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_binds() != 14993) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_change_pin() != 64846) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_forget_person_key() != 8353) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_keep_beside() != 17064) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_lock_people() != 35549) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_make_person_key() != 19135) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_people_here() != 61734) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_unlock_person() != 59843) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_constructor_book_open() != 946) {
        return InitializationResult.apiChecksumMismatch
    }

    return InitializationResult.ok
}()

// Make the ensure init function public so that other modules which have external type references to
// our types can call it.
public func uniffiEnsureFarsidingBindingsInitialized() {
    switch initializationResult {
    case .ok:
        break
    case .contractVersionMismatch:
        fatalError("UniFFI contract version mismatch: try cleaning and rebuilding your project")
    case .apiChecksumMismatch:
        fatalError("UniFFI API checksum mismatch: try cleaning and rebuilding your project")
    }
}

// swiftlint:enable all

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
 * An open book: the signed records of one device, in one SQLite file.
 *
 * Any thread may call it. Calls wait for each other, block their thread, and none keeps a lock after it
 * returns. A call that makes entries makes all of them or none, and they are on the disk when it returns.
 *
 * Texts are UTF-8, JSON where the call says so. Ids are lower-case hexadecimal: 32 digits for visits, cars and
 * sites, 64 for entries, devices and digests. Times are whole milliseconds since 1970-01-01 UTC. Amounts carry
 * their unit: `{"text": "118 psi", "unit": "psi", "value": 118}`, where `text` is what somebody typed.
 */
public protocol BookProtocol: AnyObject, Sendable {

    /**
     * Makes entries in one document, all of them or none, and returns their ids in the order of the drafts:
     * 64 hexadecimal digits each. They are signed and on the disk when this returns.
     *
     * `subject` names the document: `visit:`, `car:`, `site:` or `roster:`, then 32 hexadecimal digits.
     * `drafts` is a JSON list of `{"says", "slot"?, "replaces"?, "why"?, "place"?}`. `says` is one
     * statement, such as `{"remark": {"text": "…"}}`. An amount in a statement is `{"text", "unit",
     * "value"?}` as `read_amount` returns it: the text as typed, the unit's symbol, the number in that unit.
     * A time is milliseconds since 1970-01-01 UTC. `replaces` lists ids of entries that were wrong; `why` is
     * then required. `place` is `{"latitude", "longitude", "accuracy_m"}`: degrees north from -90 to 90,
     * degrees east from -180 to 180, and the radius in metres of the circle that holds the true place with
     * 95 %. `operator` is the person's code: 1 to 64 printable characters, no blank at its ends.
     *
     * # Errors
     * - `WrongCall`: `subject` or `drafts` cannot be read, or `operator` is blank.
     * - `Refused`: a draft breaks a rule. A reason is missing, an amount's number is not what its text says,
     * the entry would be larger than 32 KiB, or this device may not say this. Nothing was recorded.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    func append(subject: String, drafts: String, `operator`: String) throws  -> [String]

    /**
     * This device's id: its public key, 64 hexadecimal digits. Never fails.
     */
    func device()  -> String

    /**
     * Every text that `set_draft` keeps, as a JSON object from key to text.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
    func drafts() throws  -> String

    /**
     * The rows of stays whose car number (as recorded or as on the paper), seal number or spot contains
     * `text`, as a JSON list in the form of `visits`. Letters and digits alone are compared, without regard
     * to case. The list is empty when `text` has neither.
     *
     * # Errors
     * None today.
     */
    func find(text: String) throws  -> String

    /**
     * Signs the stay as fit to unload, before the first closure of a line comes out. Returns the entry's id in
     * a list of one: 64 hexadecimal digits. `visit` and `operator` are as for `settle`. Farsiding never says
     * that a car is safe: a person decides and signs.
     *
     * # Errors
     * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: something is open at this gate and was not overridden (`why` names all of it), the visit's
     * procedure has no such gate, or this device may not sign it.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    func fitToUnload(visit: String, `operator`: String) throws  -> [String]

    /**
     * A new site's id of 32 random hexadecimal digits, for the first entry in its document `site:…`. Nothing
     * is recorded. Never fails.
     */
    func newSite()  -> String

    /**
     * Begins a visit, which is one stay of one car, and returns the visit's id: 32 hexadecimal digits. The
     * visit is on the disk when this returns.
     *
     * `opening` is JSON: `{"car", "site", "receiver", "spot"?, "procedure"?}`. `car` is the car's number as
     * read from the stencil; any text is kept. `site` is a site's id, 32 hexadecimal digits. `receiver` is
     * `fixed_tank` or `truck`, what receives the cargo. `spot` is the track or spot as free text.
     * `procedure` is a procedure's digest, 64 hexadecimal digits; without it the newest edition that the
     * organisation published for the site is taken, or else the built-in procedure. `operator` is the code
     * of the person who begins the visit: 1 to 64 printable characters, no
     * blank at its ends.
     *
     * # Errors
     * - `WrongCall`: `opening` is other JSON, or `operator` is blank.
     * - `Refused`: `operator` is longer than 64 characters or has characters that are not printed, the entry
     * would be larger than 32 KiB, or this device may not begin visits at that site.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    func openVisit(opening: String, `operator`: String) throws  -> String

    /**
     * How many stays are over, and the rows of a part of them, those begun last first. JSON: `{"of": count,
     * "rows": […]}` with rows in the form of `visits`. `from` is how many rows are passed over, `most` how
     * many are returned at most; both are counts from 0 to 4294967295.
     *
     * # Errors
     * None today.
     */
    func over(from: UInt32, most: UInt32) throws  -> String

    /**
     * Overrides several items of one gate in one act, with one reason that the record shows for ever. Returns
     * the entry's id in a list of one: 64 hexadecimal digits.
     *
     * `gate` is `unload` or `release`. `items` are `code`s of the items open at that gate: of the visit's
     * `unloading.blockers` or of its `blockers`, as `visit` returns them. `reason` is a key
     * (`done_not_recorded`, `not_here`, `other_means`, `owner_says_so`, `reported`) or free text, required.
     * `visit` and `operator` are as for `settle`.
     *
     * # Errors
     * - `WrongCall`: the visit's id or the gate cannot be read, `operator` is blank, or the visit is not on this
     * device.
     * - `Refused`: the reason is blank, no item is named, one of them is not open at this gate now, or this
     * device may not override.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    func overrideItems(visit: String, gate: String, items: [String], reason: String, `operator`: String) throws  -> [String]

    /**
     * Passes over one thing that speaks against release, with a reason that the record shows for ever.
     * Returns the entry's id in a list of one: 64 hexadecimal digits.
     *
     * `blocker` is the `code` of one of the visit's `blockers`, as `visit` returns them. `why` is the reason
     * as free text, required. `visit` and `operator` are as for `settle`.
     *
     * # Errors
     * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: the reason is blank, nothing of that code speaks against release now, or this device may
     * not pass over.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    func passOver(visit: String, blocker: String, why: String, `operator`: String) throws  -> [String]

    /**
     * The people of the organisation, as a JSON list of `{operator, name, name_is, trained_on?, active}`.
     * `operator` is the code that entries name the person by, `name` the name or, where none is known here, the
     * code; `name_is` says which: `open` or `kept` with a name, `not_here` or `removed` (at the office) without
     * one. `trained_on` is a date `YYYY-MM-DD`.
     *
     * # Errors
     * None today.
     */
    func people() throws  -> String

    /**
     * The view of a visit as it would be with `drafts` appended, as JSON in the form of `visit`. Nothing is
     * kept. This is for showing what a reading means, with its uncertainty, while somebody is still typing.
     *
     * `visit` is a visit's id of 32 hexadecimal digits; `drafts` and `operator` are as for `append`.
     *
     * # Errors
     * - `WrongCall`: an argument cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: as `append` would refuse.
     * - `NotStored`: the disk cannot be read.
     */
    func preview(visit: String, drafts: String, `operator`: String) throws  -> String

    /**
     * Makes the entries of a step of the procedure and the step's own entry together, all of them or none.
     * Returns the ids in the order of the drafts, the step's own id last: 64 hexadecimal digits each.
     *
     * `step` is the step's id in the procedure, with its fitting where the step repeats:
     * `shut_valve.liquid_a`. `outcome` is `done`, `not_right` or `skipped`. `note` says what was seen, as
     * free text; a skipped step requires it. `visit` is an id of 32 hexadecimal digits; `drafts` and
     * `operator` are as for `append`, and `drafts` may be `[]`.
     *
     * # Errors
     * - `WrongCall`: an argument cannot be read, or `outcome` is another word.
     * - `Refused`: a skipped step has no note, or as `append` refuses. Nothing was recorded.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    func recordStep(visit: String, step: String, outcome: String, note: String, drafts: String, `operator`: String) throws  -> [String]

    /**
     * Releases the car. Returns the entry's id in a list of one: 64 hexadecimal digits.
     *
     * `as_residue` says whether the car goes as residue, which is neither cleaned nor purged. `visit` and
     * `operator` are as for `settle`. Farsiding never says that a car is safe: a person decides and signs.
     *
     * # Errors
     * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: something still speaks against release and was not passed over (`why` names all of it),
     * or this device may not release.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    func release(visit: String, asResidue: Bool, `operator`: String) throws  -> [String]

    /**
     * Keeps a text that is half typed under a key of the caller's own, in place of what stood there. An
     * empty text removes it. The text is on the disk when this returns; it is not signed and never leaves
     * this device.
     *
     * # Errors
     * - `NotStored`: the disk failed or is full.
     */
    func setDraft(key: String, text: String) throws

    /**
     * Settles the open disagreement that the entry `keeps` is part of, in favour of that entry. Returns the
     * id of the settlement in a list of one: 64 hexadecimal digits.
     *
     * `visit` is an id of 32 hexadecimal digits, `keeps` an entry's id of 64. `why` is the reason as free
     * text, required. `operator` is as for `append`.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: the reason is blank, the entry is in no open disagreement, or this device may not settle.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    func settle(visit: String, keeps: String, why: String, `operator`: String) throws  -> [String]

    /**
     * A whole stay in plain English sentences, for a terminal or a log. `visit` is as for `visit`.
     *
     * # Errors
     * - `WrongCall`: the id cannot be read, or the visit is not on this device.
     */
    func show(visit: String) throws  -> String

    /**
     * The sites known on this device, as a JSON object from a site's id (32 hexadecimal digits) to the site:
     * `{id, name, zone, elevation, attendance_gap_minutes, local_rules, organisation, address, tanks, instruments, hoses, contacts,
     * seal_stock, emergency, disputed, expected}`. `zone` is an IANA time zone. `elevation` is an amount above sea
     * level with its unit, or null.
     *
     * # Errors
     * None today.
     */
    func sites() throws  -> String

    /**
     * The rows of the stays that are not over, as a JSON list in the form of `visits`: the car still stands
     * at the site, or the office has not given receipts for all of the stay. This is what a phone shows
     * first.
     *
     * # Errors
     * None today.
     */
    func standing() throws  -> String

    /**
     * How this device stands, as a JSON object:
     * - `device`: this device's id. `organisation_key`: the key of the organisation that enrolled it, or
     * null. 64 hexadecimal digits each.
     * - `entries`: how many entries are here. `without_receipt`: how many of them the office has not given a
     * receipt for.
     * - `photos_waiting`: how many photographs the office is not known to hold. `quarantined`: how many
     * things from outside were refused and kept aside.
     * - `clock_ahead_millis`: how far this device's clock is ahead of the office's in milliseconds, or null
     * when never compared.
     * - `damaged`: the ids of entries whose rows on the disk are damaged.
     * - `left`: what left this device because it no longer has the site, and the office holds: `[{site, documents,
     * entries}]`, with the site's id and two counts.
     * - `log`: null before enrolment, otherwise `{size, checked_at, alarms: [{kind, sentence, at}]}` with
     * times in milliseconds since 1970-01-01 UTC and `size` as a count of entries.
     * - `version`: the version of the core.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
    func status() throws  -> String

    /**
     * A whole stay as JSON: header, steps, fittings, readings with their uncertainty, computed quantities,
     * seals, photographs, disagreements, blockers, findings, and the history as sentences.
     *
     * `visit` is the id of any visit of the stay, 32 hexadecimal digits. Amounts in the JSON name their unit. Times
     * are milliseconds since 1970-01-01 UTC, and those for people stand beside them in the site's zone.
     *
     * # Errors
     * - `WrongCall`: the id cannot be read, or the visit is not on this device.
     */
    func visit(visit: String) throws  -> String

    /**
     * One row for each stay on this device, as a JSON list.
     *
     * A row is `{visits, car, site, site_name, spot, stage, released, kept_by, open_blockers, on_hold,
     * disagreements, alarms, since, since_shown, unreceipted}`. `visits` are the ids of the visits that were
     * joined into the stay. `since` is the first claimed time in milliseconds since 1970-01-01 UTC, or null;
     * `since_shown` is the same in the site's zone. `open_blockers`, `disagreements`, `alarms` and
     * `unreceipted` are counts.
     *
     * # Errors
     * None today.
     */
    func visits() throws  -> String

    /**
     * Takes an entry back; nothing stands in its place, and the record shows both for ever. Returns the id
     * of the withdrawal in a list of one: 64 hexadecimal digits. Arguments are as for `settle`; `entry` is
     * the entry that is taken back.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: the reason is blank, the visit has no such entry, or this device may not take that entry
     * back.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
    func withdraw(visit: String, entry: String, why: String, `operator`: String) throws  -> [String]

    /**
     * Hands over the next photograph of the carry file that was taken in last, each once, or nothing when
     * there are no more. The caller keeps the bytes and then calls `photo_taken`. Never fails.
     */
    func carriedPhoto()  -> Picture?

    /**
     * Takes the bytes of a carry file in. JSON: `{received, contained, refused, photos, contradictions}`.
     * `received` counts entries that are new here, `contained` all entries in the file. `refused` lists
     * reasons for parts that were kept aside. `photos` counts photographs, which `carried_photo` hands over.
     * `contradictions` lists `{kind, sentence}` where the office showed another log to the device that wrote
     * the file. Taking one file in twice changes nothing.
     *
     * # Errors
     * - `Refused`: the bytes are no carry file, were damaged on their way, or have more than 64 MiB when
     * unpacked. Nothing was taken in.
     * - `NotStored`: the disk failed or is full. Taking the file in again completes it.
     */
    func carryIn(file: Data) throws  -> String

    /**
     * Writes the given visits with all cars, sites and people into the bytes of one carry file, and the
     * photographs that were given to `carry_photo` since the last carry file. The file is compressed and not
     * encrypted: entries in it are signed, and anybody can read them. `visits` are ids of 32 hexadecimal
     * digits; one that is not here is left out.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read.
     * - `NotStored`: the disk cannot be read.
     * - `Refused`: the file could not be encoded.
     */
    func carryOut(visits: [String]) throws  -> Data

    /**
     * Takes the exact bytes of one photograph for the next carry file. They wait in memory until
     * `carry_out`. The same bytes given twice are taken once. All photographs together may have 48 MiB
     * (50331648 bytes).
     *
     * # Errors
     * - `WrongCall`: the bytes are those of no photograph known here, or 48 MiB would be exceeded.
     * - `NotStored`: the disk cannot be read.
     */
    func carryPhoto(bytes: Data) throws

    /**
     * Notes that the caller keeps the bytes of a photograph. Returns the photograph as statements name it,
     * as JSON: `{sha256, length, media}`.
     *
     * `sha256` is the SHA-256 of the exact bytes, 64 hexadecimal digits. `length` is their number. `media`
     * is the media type, such as `image/jpeg`.
     *
     * # Errors
     * - `WrongCall`: `sha256` has not 64 hexadecimal digits.
     * - `NotStored`: the disk failed or is full.
     */
    func photoTaken(sha256: String, length: UInt64, media: String) throws  -> String

    /**
     * The photographs that the given visits speak of and whose bytes are here, as a JSON list of `{sha256,
     * length, media}` with `length` in bytes. Those that the office is not known to hold come first.
     * `visits` are ids of 32 hexadecimal digits.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read.
     * - `NotStored`: the disk cannot be read.
     */
    func photosOf(visits: [String]) throws  -> String

    /**
     * The photographs that the office has not confirmed to hold, as a JSON list of `{sha256, length, media}`
     * with `length` in bytes. The office confirms in the signed reply of a later sync, so a sync after
     * sending them shortens the list.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
    func photosWaiting() throws  -> String

    /**
     * The body of the request that enrols this device: signed by the device's key, with a one-time code from
     * the office. Send it with `POST` to the office's address `/v1/enrol` as `application/cbor`.
     *
     * Ask the same address with `GET` first; its JSON says `organisation_key` (64 hexadecimal digits) and
     * `server_time` (milliseconds since 1970-01-01 UTC), which are given here. Compare the key with the one
     * in the office's link before the code leaves this device. `name` is what the office calls this device.
     *
     * # Errors
     * - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
     * - `Refused`: the request could not be encoded.
     */
    func enrolRequest(code: String, name: String, organisationKey: String, serverTime: Int64) throws  -> Data

    /**
     * Takes the office's answer to an enrolment and keeps it. `organisation_key` has 64 hexadecimal digits;
     * `certificate` is the decoded base64 of the answer's `certificate`. Where the answer has
     * `key_statements`, call `enrolled_with` instead.
     *
     * # Errors
     * - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
     * - `Refused`: the certificate is not this device's, or that organisation did not sign it. Nothing was
     * kept.
     * - `NotStored`: the disk failed or is full.
     */
    func enrolled(organisationKey: String, certificate: Data) throws

    /**
     * Takes the office's answer to an enrolment, as `enrolled` does, where the organisation's root named
     * another key that signs for it. `key_statements` are the decoded base64 texts of the answer's
     * `key_statements`, in their order.
     *
     * # Errors
     * As `enrolled`.
     */
    func enrolledWith(organisationKey: String, keyStatements: [Data], certificate: Data) throws

    /**
     * Takes the body of the office's reply about its log. JSON: `{done, size, proven, contradictions:
     * [{kind, sentence}], restored: [{at, size}]}`. `size` is how many entries the log has, or null;
     * `proven` counts entries that this device now holds a proof for; `at` is a time in milliseconds since
     * 1970-01-01 UTC. A contradiction means that the office rewrote its log. It is no error: records stay,
     * sync goes on, and `status` keeps it.
     *
     * # Errors
     * - `NotTheOffice`: the organisation did not sign the reply. Nothing is lost, and `log_request` may be
     * called again.
     * - `WrongCall`: the log was not asked for.
     * - `NotStored`: the disk failed or is full.
     */
    func logReceive(reply: Data) throws  -> String

    /**
     * The body of the next request about the office's log, for after a sync: send it with `POST` to the
     * office's address `/v1/log` as `application/cbor`. Nothing is returned when there is nothing to ask.
     * Call this again when `log_receive` says that it is not done, or when a reply got lost.
     *
     * # Errors
     * - `NotEnrolled`: no office has enrolled this device.
     * - `NotStored`: the disk cannot be read.
     */
    func logRequest() throws  -> Data?

    /**
     * The body of the signed request for a pass, which lets this device send photographs to the office and
     * fetch them. Send it with `POST` to the office's address `/v1/pass` as `application/cbor`.
     *
     * # Errors
     * - `NotEnrolled`: no office has enrolled this device.
     * - `NotStored`: the disk cannot be read.
     */
    func passRequest() throws  -> Data

    /**
     * Takes the body of the office's reply. JSON: `{done, rounds, receipted, received, refused, put_off,
     * set_aside, revoked, ahead_millis, reconciled, differing, left, left_photos}`.
     *
     * `done` says whether the sync is over. `rounds`, `receipted` (entries with a new receipt), `received`
     * (entries new here) and `set_aside` (things of the office's that were refused here) are counts of this
     * sync so far. `refused` lists reasons why the office refuses something for good; `put_off` is why it
     * takes some things later, or null. `revoked` says that the office has revoked this device.
     * `ahead_millis` is this device's clock minus the office's, in milliseconds. `differing` lists the
     * documents that still differ, as `append` names them. `left` lists the documents that left this device, which
     * no longer has their sites, once the office held all of them; `left_photos` the digests of the photographs
     * that left with them, whose bytes are the caller's to delete.
     *
     * # Errors
     * - `NotTheOffice`: the organisation did not sign the reply, or it answers another request; a login page
     * in between is the usual cause. Nothing is lost, and `sync_request` may be called again.
     * - `WrongCall`: no sync was begun.
     * - `NotStored`: the disk failed or is full.
     * - `Refused`: the records still differ after as many rounds as should ever be needed. They are compared
     * again next time.
     */
    func syncReceive(reply: Data) throws  -> String

    /**
     * The body of the sync's next request. Calling this again without a reply in between is allowed: a reply
     * got lost.
     *
     * # Errors
     * - `WrongCall`: no sync was begun, or the last one is done.
     * - `NotStored`: the disk cannot be read.
     */
    func syncRequest() throws  -> Data

    /**
     * Begins a sync with the office. Then repeat until the reply says `done`: `sync_request`, send the body
     * with `POST` to the office's address `/v1/sync` as `application/cbor`, `sync_receive`. A sync that was
     * broken off is forgotten; what it brought is kept.
     *
     * # Errors
     * - `NotEnrolled`: no office has enrolled this device.
     * - `NotStored`: the disk cannot be read.
     */
    func syncStart() throws

    /**
     * Whether any of the drafts is an act that binds the person who makes it, such as a release. Where that
     * person has a key here, `unlock_person` comes first; otherwise the entry says that the device alone
     * named the person. `drafts` are as for `append`.
     *
     * # Errors
     * - `WrongCall`: `drafts` is other JSON.
     */
    func binds(drafts: String) throws  -> Bool

    /**
     * Gives a person's key the PIN `new_pin` in place of `old_pin`, six decimal digits each. The key stays
     * the same. Takes about two seconds and 64 MiB, in which every other call on this book waits.
     *
     * # Errors
     * - `WeakPin`: one of the PINs has not six digits, or the new one is among the first that anybody tries.
     * - As `unlock_person` for the old PIN. Whatever went wrong, the old PIN stays.
     */
    func changePin(person: String, oldPin: String, newPin: String) throws

    /**
     * Drops a person's key from this device, for a forgotten PIN. What the key signed stays signed. The
     * office ends it in the roster, and the person makes a new one with `make_person_key`.
     *
     * # Errors
     * - `NoKey`: the person has no key on this device.
     * - `NotStored`: the disk failed or is full. The key is then still here.
     */
    func forgetPersonKey(person: String) throws

    /**
     * Hands over the random secret that the caller keeps beside the device's key: exactly 32 bytes, made
     * once with `new_key`, and kept apart from the book's own storage. Call this after every `open`. Without
     * it no person's key can be made or unlocked; with another one no PIN is right. The secret stays in
     * memory only.
     *
     * # Errors
     * - `WrongCall`: the secret has not 32 bytes.
     */
    func keepBeside(secret: Data) throws

    /**
     * Forgets whose key is unlocked: the shift is over, or the device changes hands. Never fails.
     */
    func lockPeople()

    /**
     * Makes a key for the person with the code `person`, under the PIN `pin` of six decimal digits, and says
     * so in the roster. The key is unlocked then. Returns its fingerprint for the telephone: 16 decimal
     * digits in four groups. Takes about a second and 64 MiB, in which every other call on this book waits.
     *
     * # Errors
     * - `WeakPin`: the PIN has not six digits, or is among the first that anybody tries.
     * - `HasKey`: the person has a key on this device already.
     * - `NotEnrolled`: no office has enrolled this device.
     * - `WrongCall`: `keep_beside` was not called, or `person` is blank.
     * - `Refused`: `person` is no code, or this device may not say so.
     * - `NotStored`: the disk failed or is full. No key was made.
     */
    func makePersonKey(person: String, pin: String) throws  -> String

    /**
     * Who holds this device now, whose keys live here, and what the organisation decided. JSON: `{holder:
     * {person, how, since, until} or null, keys: [{person, key, fingerprint, tries_left, wait_until,
     * confirmed, ended}], rules: {operator_rights?, unlocking, signature_required?}, can_make}`.
     *
     * `how` and `unlocking` are `act` (for one act, within 5 minutes) or `shift` (12 hours at most).
     * `since`, `until` and `wait_until` are milliseconds since 1970-01-01 UTC by this device's clock;
     * `wait_until` may be null. `key` has 64 hexadecimal digits, `fingerprint` 16 decimal digits in four
     * groups. `tries_left` is a count from 0 to 10. `can_make` says whether `make_person_key` can succeed:
     * the device is enrolled, and `keep_beside` was called.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
    func peopleHere() throws  -> String

    /**
     * Unlocks a person's key with its PIN of six decimal digits, for the next act that binds or for the
     * shift, as the organisation decided. Whoever held the device before holds it no more. Takes about a
     * second and 64 MiB, in which every other call on this book waits. Tries are counted on the disk before
     * they are made.
     *
     * # Errors
     * - `WrongPin`: with the number of tries left, of 10. Whoever was unlocked stays so.
     * - `PinWaits`: with the time from which the next try is allowed; from the fifth wrong try on.
     * - `KeyLocked`: ten wrong tries were made. The key is gone from this device.
     * - `KeyEnded`: the office ended the key.
     * - `NoKey`: the person has no key on this device.
     * - `WeakPin`: the PIN has not six digits; no try was counted.
     * - `WrongCall`: `keep_beside` was not called.
     * - `Refused`: what was kept of the key is damaged.
     * - `NotStored`: the disk failed or is full.
     */
    func unlockPerson(person: String, pin: String) throws

}
/**
 * An open book: the signed records of one device, in one SQLite file.
 *
 * Any thread may call it. Calls wait for each other, block their thread, and none keeps a lock after it
 * returns. A call that makes entries makes all of them or none, and they are on the disk when it returns.
 *
 * Texts are UTF-8, JSON where the call says so. Ids are lower-case hexadecimal: 32 digits for visits, cars and
 * sites, 64 for entries, devices and digests. Times are whole milliseconds since 1970-01-01 UTC. Amounts carry
 * their unit: `{"text": "118 psi", "unit": "psi", "value": 118}`, where `text` is what somebody typed.
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
     * Opens the book `name` in `folder`, or makes it when there is none. Call `prepare_storage(folder)`
     * first, and wait for it.
     *
     * `folder` is a path; in a browser it is a folder of the origin's private file system. `name` is the
     * name of one SQLite file in that folder: 1 to 200 bytes, without slashes. `key` is the device's secret
     * of exactly 32 bytes (Ed25519), made once with `new_key`. The same key must be given every time:
     * whoever opens the book with another key continues the records as another device. Opening reads and
     * checks every record, which takes longer as records grow.
     *
     * # Errors
     * - `WrongCall`: the key has not 32 bytes, or the name is empty, too long or has a slash.
     * - `NoStorage`: the folder cannot be used, for example because `prepare_storage` has not made it.
     * - `OpenElsewhere`: another program holds the file.
     * - `NotStored`: the disk failed or is full.
     * - `Refused`: a later version of this software wrote the file.
     */
public static func `open`(folder: String, name: String, key: Data)throws  -> Book  {
    return try  FfiConverterTypeBook_lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_constructor_book_open(
        FfiConverterString.lower(folder),
        FfiConverterString.lower(name),
        FfiConverterData.lower(key),$0
    )
})
}



    /**
     * Makes entries in one document, all of them or none, and returns their ids in the order of the drafts:
     * 64 hexadecimal digits each. They are signed and on the disk when this returns.
     *
     * `subject` names the document: `visit:`, `car:`, `site:` or `roster:`, then 32 hexadecimal digits.
     * `drafts` is a JSON list of `{"says", "slot"?, "replaces"?, "why"?, "place"?}`. `says` is one
     * statement, such as `{"remark": {"text": "…"}}`. An amount in a statement is `{"text", "unit",
     * "value"?}` as `read_amount` returns it: the text as typed, the unit's symbol, the number in that unit.
     * A time is milliseconds since 1970-01-01 UTC. `replaces` lists ids of entries that were wrong; `why` is
     * then required. `place` is `{"latitude", "longitude", "accuracy_m"}`: degrees north from -90 to 90,
     * degrees east from -180 to 180, and the radius in metres of the circle that holds the true place with
     * 95 %. `operator` is the person's code: 1 to 64 printable characters, no blank at its ends.
     *
     * # Errors
     * - `WrongCall`: `subject` or `drafts` cannot be read, or `operator` is blank.
     * - `Refused`: a draft breaks a rule. A reason is missing, an amount's number is not what its text says,
     * the entry would be larger than 32 KiB, or this device may not say this. Nothing was recorded.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
open func append(subject: String, drafts: String, `operator`: String)throws  -> [String]  {
    return try  FfiConverterSequenceString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_append(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(subject),
        FfiConverterString.lower(drafts),
        FfiConverterString.lower(`operator`),$0
    )
})
}

    /**
     * This device's id: its public key, 64 hexadecimal digits. Never fails.
     */
open func device() -> String  {
    return try!  FfiConverterString.lift(try! rustCall() {
    uniffi_farsiding_bindings_fn_method_book_device(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Every text that `set_draft` keeps, as a JSON object from key to text.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
open func drafts()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_drafts(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * The rows of stays whose car number (as recorded or as on the paper), seal number or spot contains
     * `text`, as a JSON list in the form of `visits`. Letters and digits alone are compared, without regard
     * to case. The list is empty when `text` has neither.
     *
     * # Errors
     * None today.
     */
open func find(text: String)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_find(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(text),$0
    )
})
}

    /**
     * Signs the stay as fit to unload, before the first closure of a line comes out. Returns the entry's id in
     * a list of one: 64 hexadecimal digits. `visit` and `operator` are as for `settle`. Farsiding never says
     * that a car is safe: a person decides and signs.
     *
     * # Errors
     * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: something is open at this gate and was not overridden (`why` names all of it), the visit's
     * procedure has no such gate, or this device may not sign it.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
open func fitToUnload(visit: String, `operator`: String)throws  -> [String]  {
    return try  FfiConverterSequenceString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_fit_to_unload(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(visit),
        FfiConverterString.lower(`operator`),$0
    )
})
}

    /**
     * A new site's id of 32 random hexadecimal digits, for the first entry in its document `site:…`. Nothing
     * is recorded. Never fails.
     */
open func newSite() -> String  {
    return try!  FfiConverterString.lift(try! rustCall() {
    uniffi_farsiding_bindings_fn_method_book_new_site(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Begins a visit, which is one stay of one car, and returns the visit's id: 32 hexadecimal digits. The
     * visit is on the disk when this returns.
     *
     * `opening` is JSON: `{"car", "site", "receiver", "spot"?, "procedure"?}`. `car` is the car's number as
     * read from the stencil; any text is kept. `site` is a site's id, 32 hexadecimal digits. `receiver` is
     * `fixed_tank` or `truck`, what receives the cargo. `spot` is the track or spot as free text.
     * `procedure` is a procedure's digest, 64 hexadecimal digits; without it the newest edition that the
     * organisation published for the site is taken, or else the built-in procedure. `operator` is the code
     * of the person who begins the visit: 1 to 64 printable characters, no
     * blank at its ends.
     *
     * # Errors
     * - `WrongCall`: `opening` is other JSON, or `operator` is blank.
     * - `Refused`: `operator` is longer than 64 characters or has characters that are not printed, the entry
     * would be larger than 32 KiB, or this device may not begin visits at that site.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
open func openVisit(opening: String, `operator`: String)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_open_visit(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(opening),
        FfiConverterString.lower(`operator`),$0
    )
})
}

    /**
     * How many stays are over, and the rows of a part of them, those begun last first. JSON: `{"of": count,
     * "rows": […]}` with rows in the form of `visits`. `from` is how many rows are passed over, `most` how
     * many are returned at most; both are counts from 0 to 4294967295.
     *
     * # Errors
     * None today.
     */
open func over(from: UInt32, most: UInt32)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_over(
            self.uniffiCloneHandle(),
        FfiConverterUInt32.lower(from),
        FfiConverterUInt32.lower(most),$0
    )
})
}

    /**
     * Overrides several items of one gate in one act, with one reason that the record shows for ever. Returns
     * the entry's id in a list of one: 64 hexadecimal digits.
     *
     * `gate` is `unload` or `release`. `items` are `code`s of the items open at that gate: of the visit's
     * `unloading.blockers` or of its `blockers`, as `visit` returns them. `reason` is a key
     * (`done_not_recorded`, `not_here`, `other_means`, `owner_says_so`, `reported`) or free text, required.
     * `visit` and `operator` are as for `settle`.
     *
     * # Errors
     * - `WrongCall`: the visit's id or the gate cannot be read, `operator` is blank, or the visit is not on this
     * device.
     * - `Refused`: the reason is blank, no item is named, one of them is not open at this gate now, or this
     * device may not override.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
open func overrideItems(visit: String, gate: String, items: [String], reason: String, `operator`: String)throws  -> [String]  {
    return try  FfiConverterSequenceString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_override_items(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(visit),
        FfiConverterString.lower(gate),
        FfiConverterSequenceString.lower(items),
        FfiConverterString.lower(reason),
        FfiConverterString.lower(`operator`),$0
    )
})
}

    /**
     * Passes over one thing that speaks against release, with a reason that the record shows for ever.
     * Returns the entry's id in a list of one: 64 hexadecimal digits.
     *
     * `blocker` is the `code` of one of the visit's `blockers`, as `visit` returns them. `why` is the reason
     * as free text, required. `visit` and `operator` are as for `settle`.
     *
     * # Errors
     * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: the reason is blank, nothing of that code speaks against release now, or this device may
     * not pass over.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
open func passOver(visit: String, blocker: String, why: String, `operator`: String)throws  -> [String]  {
    return try  FfiConverterSequenceString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
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
     * The people of the organisation, as a JSON list of `{operator, name, name_is, trained_on?, active}`.
     * `operator` is the code that entries name the person by, `name` the name or, where none is known here, the
     * code; `name_is` says which: `open` or `kept` with a name, `not_here` or `removed` (at the office) without
     * one. `trained_on` is a date `YYYY-MM-DD`.
     *
     * # Errors
     * None today.
     */
open func people()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_people(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * The view of a visit as it would be with `drafts` appended, as JSON in the form of `visit`. Nothing is
     * kept. This is for showing what a reading means, with its uncertainty, while somebody is still typing.
     *
     * `visit` is a visit's id of 32 hexadecimal digits; `drafts` and `operator` are as for `append`.
     *
     * # Errors
     * - `WrongCall`: an argument cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: as `append` would refuse.
     * - `NotStored`: the disk cannot be read.
     */
open func preview(visit: String, drafts: String, `operator`: String)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_preview(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(visit),
        FfiConverterString.lower(drafts),
        FfiConverterString.lower(`operator`),$0
    )
})
}

    /**
     * Makes the entries of a step of the procedure and the step's own entry together, all of them or none.
     * Returns the ids in the order of the drafts, the step's own id last: 64 hexadecimal digits each.
     *
     * `step` is the step's id in the procedure, with its fitting where the step repeats:
     * `shut_valve.liquid_a`. `outcome` is `done`, `not_right` or `skipped`. `note` says what was seen, as
     * free text; a skipped step requires it. `visit` is an id of 32 hexadecimal digits; `drafts` and
     * `operator` are as for `append`, and `drafts` may be `[]`.
     *
     * # Errors
     * - `WrongCall`: an argument cannot be read, or `outcome` is another word.
     * - `Refused`: a skipped step has no note, or as `append` refuses. Nothing was recorded.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
open func recordStep(visit: String, step: String, outcome: String, note: String, drafts: String, `operator`: String)throws  -> [String]  {
    return try  FfiConverterSequenceString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
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
     * Releases the car. Returns the entry's id in a list of one: 64 hexadecimal digits.
     *
     * `as_residue` says whether the car goes as residue, which is neither cleaned nor purged. `visit` and
     * `operator` are as for `settle`. Farsiding never says that a car is safe: a person decides and signs.
     *
     * # Errors
     * - `WrongCall`: the visit's id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: something still speaks against release and was not passed over (`why` names all of it),
     * or this device may not release.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
open func release(visit: String, asResidue: Bool, `operator`: String)throws  -> [String]  {
    return try  FfiConverterSequenceString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_release(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(visit),
        FfiConverterBool.lower(asResidue),
        FfiConverterString.lower(`operator`),$0
    )
})
}

    /**
     * Keeps a text that is half typed under a key of the caller's own, in place of what stood there. An
     * empty text removes it. The text is on the disk when this returns; it is not signed and never leaves
     * this device.
     *
     * # Errors
     * - `NotStored`: the disk failed or is full.
     */
open func setDraft(key: String, text: String)throws   {try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_set_draft(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(key),
        FfiConverterString.lower(text),$0
    )
}
}

    /**
     * Settles the open disagreement that the entry `keeps` is part of, in favour of that entry. Returns the
     * id of the settlement in a list of one: 64 hexadecimal digits.
     *
     * `visit` is an id of 32 hexadecimal digits, `keeps` an entry's id of 64. `why` is the reason as free
     * text, required. `operator` is as for `append`.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: the reason is blank, the entry is in no open disagreement, or this device may not settle.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
open func settle(visit: String, keeps: String, why: String, `operator`: String)throws  -> [String]  {
    return try  FfiConverterSequenceString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
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
     * A whole stay in plain English sentences, for a terminal or a log. `visit` is as for `visit`.
     *
     * # Errors
     * - `WrongCall`: the id cannot be read, or the visit is not on this device.
     */
open func show(visit: String)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_show(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(visit),$0
    )
})
}

    /**
     * The sites known on this device, as a JSON object from a site's id (32 hexadecimal digits) to the site:
     * `{id, name, zone, elevation, attendance_gap_minutes, local_rules, organisation, address, tanks, instruments, hoses, contacts,
     * seal_stock, emergency, disputed, expected}`. `zone` is an IANA time zone. `elevation` is an amount above sea
     * level with its unit, or null.
     *
     * # Errors
     * None today.
     */
open func sites()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_sites(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * The rows of the stays that are not over, as a JSON list in the form of `visits`: the car still stands
     * at the site, or the office has not given receipts for all of the stay. This is what a phone shows
     * first.
     *
     * # Errors
     * None today.
     */
open func standing()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_standing(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * How this device stands, as a JSON object:
     * - `device`: this device's id. `organisation_key`: the key of the organisation that enrolled it, or
     * null. 64 hexadecimal digits each.
     * - `entries`: how many entries are here. `without_receipt`: how many of them the office has not given a
     * receipt for.
     * - `photos_waiting`: how many photographs the office is not known to hold. `quarantined`: how many
     * things from outside were refused and kept aside.
     * - `clock_ahead_millis`: how far this device's clock is ahead of the office's in milliseconds, or null
     * when never compared.
     * - `damaged`: the ids of entries whose rows on the disk are damaged.
     * - `left`: what left this device because it no longer has the site, and the office holds: `[{site, documents,
     * entries}]`, with the site's id and two counts.
     * - `log`: null before enrolment, otherwise `{size, checked_at, alarms: [{kind, sentence, at}]}` with
     * times in milliseconds since 1970-01-01 UTC and `size` as a count of entries.
     * - `version`: the version of the core.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
open func status()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_status(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * A whole stay as JSON: header, steps, fittings, readings with their uncertainty, computed quantities,
     * seals, photographs, disagreements, blockers, findings, and the history as sentences.
     *
     * `visit` is the id of any visit of the stay, 32 hexadecimal digits. Amounts in the JSON name their unit. Times
     * are milliseconds since 1970-01-01 UTC, and those for people stand beside them in the site's zone.
     *
     * # Errors
     * - `WrongCall`: the id cannot be read, or the visit is not on this device.
     */
open func visit(visit: String)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_visit(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(visit),$0
    )
})
}

    /**
     * One row for each stay on this device, as a JSON list.
     *
     * A row is `{visits, car, site, site_name, spot, stage, released, kept_by, open_blockers, on_hold,
     * disagreements, alarms, since, since_shown, unreceipted}`. `visits` are the ids of the visits that were
     * joined into the stay. `since` is the first claimed time in milliseconds since 1970-01-01 UTC, or null;
     * `since_shown` is the same in the site's zone. `open_blockers`, `disagreements`, `alarms` and
     * `unreceipted` are counts.
     *
     * # Errors
     * None today.
     */
open func visits()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_visits(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Takes an entry back; nothing stands in its place, and the record shows both for ever. Returns the id
     * of the withdrawal in a list of one: 64 hexadecimal digits. Arguments are as for `settle`; `entry` is
     * the entry that is taken back.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read, `operator` is blank, or the visit is not on this device.
     * - `Refused`: the reason is blank, the visit has no such entry, or this device may not take that entry
     * back.
     * - `NotStored`: the disk failed or is full. Nothing was recorded.
     */
open func withdraw(visit: String, entry: String, why: String, `operator`: String)throws  -> [String]  {
    return try  FfiConverterSequenceString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
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
     * Hands over the next photograph of the carry file that was taken in last, each once, or nothing when
     * there are no more. The caller keeps the bytes and then calls `photo_taken`. Never fails.
     */
open func carriedPhoto() -> Picture?  {
    return try!  FfiConverterOptionTypePicture.lift(try! rustCall() {
    uniffi_farsiding_bindings_fn_method_book_carried_photo(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Takes the bytes of a carry file in. JSON: `{received, contained, refused, photos, contradictions}`.
     * `received` counts entries that are new here, `contained` all entries in the file. `refused` lists
     * reasons for parts that were kept aside. `photos` counts photographs, which `carried_photo` hands over.
     * `contradictions` lists `{kind, sentence}` where the office showed another log to the device that wrote
     * the file. Taking one file in twice changes nothing.
     *
     * # Errors
     * - `Refused`: the bytes are no carry file, were damaged on their way, or have more than 64 MiB when
     * unpacked. Nothing was taken in.
     * - `NotStored`: the disk failed or is full. Taking the file in again completes it.
     */
open func carryIn(file: Data)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_carry_in(
            self.uniffiCloneHandle(),
        FfiConverterData.lower(file),$0
    )
})
}

    /**
     * Writes the given visits with all cars, sites and people into the bytes of one carry file, and the
     * photographs that were given to `carry_photo` since the last carry file. The file is compressed and not
     * encrypted: entries in it are signed, and anybody can read them. `visits` are ids of 32 hexadecimal
     * digits; one that is not here is left out.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read.
     * - `NotStored`: the disk cannot be read.
     * - `Refused`: the file could not be encoded.
     */
open func carryOut(visits: [String])throws  -> Data  {
    return try  FfiConverterData.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_carry_out(
            self.uniffiCloneHandle(),
        FfiConverterSequenceString.lower(visits),$0
    )
})
}

    /**
     * Takes the exact bytes of one photograph for the next carry file. They wait in memory until
     * `carry_out`. The same bytes given twice are taken once. All photographs together may have 48 MiB
     * (50331648 bytes).
     *
     * # Errors
     * - `WrongCall`: the bytes are those of no photograph known here, or 48 MiB would be exceeded.
     * - `NotStored`: the disk cannot be read.
     */
open func carryPhoto(bytes: Data)throws   {try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_carry_photo(
            self.uniffiCloneHandle(),
        FfiConverterData.lower(bytes),$0
    )
}
}

    /**
     * Notes that the caller keeps the bytes of a photograph. Returns the photograph as statements name it,
     * as JSON: `{sha256, length, media}`.
     *
     * `sha256` is the SHA-256 of the exact bytes, 64 hexadecimal digits. `length` is their number. `media`
     * is the media type, such as `image/jpeg`.
     *
     * # Errors
     * - `WrongCall`: `sha256` has not 64 hexadecimal digits.
     * - `NotStored`: the disk failed or is full.
     */
open func photoTaken(sha256: String, length: UInt64, media: String)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_photo_taken(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(sha256),
        FfiConverterUInt64.lower(length),
        FfiConverterString.lower(media),$0
    )
})
}

    /**
     * The photographs that the given visits speak of and whose bytes are here, as a JSON list of `{sha256,
     * length, media}` with `length` in bytes. Those that the office is not known to hold come first.
     * `visits` are ids of 32 hexadecimal digits.
     *
     * # Errors
     * - `WrongCall`: an id cannot be read.
     * - `NotStored`: the disk cannot be read.
     */
open func photosOf(visits: [String])throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_photos_of(
            self.uniffiCloneHandle(),
        FfiConverterSequenceString.lower(visits),$0
    )
})
}

    /**
     * The photographs that the office has not confirmed to hold, as a JSON list of `{sha256, length, media}`
     * with `length` in bytes. The office confirms in the signed reply of a later sync, so a sync after
     * sending them shortens the list.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
open func photosWaiting()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_photos_waiting(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * The body of the request that enrols this device: signed by the device's key, with a one-time code from
     * the office. Send it with `POST` to the office's address `/v1/enrol` as `application/cbor`.
     *
     * Ask the same address with `GET` first; its JSON says `organisation_key` (64 hexadecimal digits) and
     * `server_time` (milliseconds since 1970-01-01 UTC), which are given here. Compare the key with the one
     * in the office's link before the code leaves this device. `name` is what the office calls this device.
     *
     * # Errors
     * - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
     * - `Refused`: the request could not be encoded.
     */
open func enrolRequest(code: String, name: String, organisationKey: String, serverTime: Int64)throws  -> Data  {
    return try  FfiConverterData.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
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
     * Takes the office's answer to an enrolment and keeps it. `organisation_key` has 64 hexadecimal digits;
     * `certificate` is the decoded base64 of the answer's `certificate`. Where the answer has
     * `key_statements`, call `enrolled_with` instead.
     *
     * # Errors
     * - `WrongCall`: `organisation_key` has not 64 hexadecimal digits.
     * - `Refused`: the certificate is not this device's, or that organisation did not sign it. Nothing was
     * kept.
     * - `NotStored`: the disk failed or is full.
     */
open func enrolled(organisationKey: String, certificate: Data)throws   {try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_enrolled(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(organisationKey),
        FfiConverterData.lower(certificate),$0
    )
}
}

    /**
     * Takes the office's answer to an enrolment, as `enrolled` does, where the organisation's root named
     * another key that signs for it. `key_statements` are the decoded base64 texts of the answer's
     * `key_statements`, in their order.
     *
     * # Errors
     * As `enrolled`.
     */
open func enrolledWith(organisationKey: String, keyStatements: [Data], certificate: Data)throws   {try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_enrolled_with(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(organisationKey),
        FfiConverterSequenceData.lower(keyStatements),
        FfiConverterData.lower(certificate),$0
    )
}
}

    /**
     * Takes the body of the office's reply about its log. JSON: `{done, size, proven, contradictions:
     * [{kind, sentence}], restored: [{at, size}]}`. `size` is how many entries the log has, or null;
     * `proven` counts entries that this device now holds a proof for; `at` is a time in milliseconds since
     * 1970-01-01 UTC. A contradiction means that the office rewrote its log. It is no error: records stay,
     * sync goes on, and `status` keeps it.
     *
     * # Errors
     * - `NotTheOffice`: the organisation did not sign the reply. Nothing is lost, and `log_request` may be
     * called again.
     * - `WrongCall`: the log was not asked for.
     * - `NotStored`: the disk failed or is full.
     */
open func logReceive(reply: Data)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_log_receive(
            self.uniffiCloneHandle(),
        FfiConverterData.lower(reply),$0
    )
})
}

    /**
     * The body of the next request about the office's log, for after a sync: send it with `POST` to the
     * office's address `/v1/log` as `application/cbor`. Nothing is returned when there is nothing to ask.
     * Call this again when `log_receive` says that it is not done, or when a reply got lost.
     *
     * # Errors
     * - `NotEnrolled`: no office has enrolled this device.
     * - `NotStored`: the disk cannot be read.
     */
open func logRequest()throws  -> Data?  {
    return try  FfiConverterOptionData.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_log_request(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * The body of the signed request for a pass, which lets this device send photographs to the office and
     * fetch them. Send it with `POST` to the office's address `/v1/pass` as `application/cbor`.
     *
     * # Errors
     * - `NotEnrolled`: no office has enrolled this device.
     * - `NotStored`: the disk cannot be read.
     */
open func passRequest()throws  -> Data  {
    return try  FfiConverterData.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_pass_request(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Takes the body of the office's reply. JSON: `{done, rounds, receipted, received, refused, put_off,
     * set_aside, revoked, ahead_millis, reconciled, differing, left, left_photos}`.
     *
     * `done` says whether the sync is over. `rounds`, `receipted` (entries with a new receipt), `received`
     * (entries new here) and `set_aside` (things of the office's that were refused here) are counts of this
     * sync so far. `refused` lists reasons why the office refuses something for good; `put_off` is why it
     * takes some things later, or null. `revoked` says that the office has revoked this device.
     * `ahead_millis` is this device's clock minus the office's, in milliseconds. `differing` lists the
     * documents that still differ, as `append` names them. `left` lists the documents that left this device, which
     * no longer has their sites, once the office held all of them; `left_photos` the digests of the photographs
     * that left with them, whose bytes are the caller's to delete.
     *
     * # Errors
     * - `NotTheOffice`: the organisation did not sign the reply, or it answers another request; a login page
     * in between is the usual cause. Nothing is lost, and `sync_request` may be called again.
     * - `WrongCall`: no sync was begun.
     * - `NotStored`: the disk failed or is full.
     * - `Refused`: the records still differ after as many rounds as should ever be needed. They are compared
     * again next time.
     */
open func syncReceive(reply: Data)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_sync_receive(
            self.uniffiCloneHandle(),
        FfiConverterData.lower(reply),$0
    )
})
}

    /**
     * The body of the sync's next request. Calling this again without a reply in between is allowed: a reply
     * got lost.
     *
     * # Errors
     * - `WrongCall`: no sync was begun, or the last one is done.
     * - `NotStored`: the disk cannot be read.
     */
open func syncRequest()throws  -> Data  {
    return try  FfiConverterData.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_sync_request(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Begins a sync with the office. Then repeat until the reply says `done`: `sync_request`, send the body
     * with `POST` to the office's address `/v1/sync` as `application/cbor`, `sync_receive`. A sync that was
     * broken off is forgotten; what it brought is kept.
     *
     * # Errors
     * - `NotEnrolled`: no office has enrolled this device.
     * - `NotStored`: the disk cannot be read.
     */
open func syncStart()throws   {try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_sync_start(
            self.uniffiCloneHandle(),$0
    )
}
}

    /**
     * Whether any of the drafts is an act that binds the person who makes it, such as a release. Where that
     * person has a key here, `unlock_person` comes first; otherwise the entry says that the device alone
     * named the person. `drafts` are as for `append`.
     *
     * # Errors
     * - `WrongCall`: `drafts` is other JSON.
     */
open func binds(drafts: String)throws  -> Bool  {
    return try  FfiConverterBool.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_binds(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(drafts),$0
    )
})
}

    /**
     * Gives a person's key the PIN `new_pin` in place of `old_pin`, six decimal digits each. The key stays
     * the same. Takes about two seconds and 64 MiB, in which every other call on this book waits.
     *
     * # Errors
     * - `WeakPin`: one of the PINs has not six digits, or the new one is among the first that anybody tries.
     * - As `unlock_person` for the old PIN. Whatever went wrong, the old PIN stays.
     */
open func changePin(person: String, oldPin: String, newPin: String)throws   {try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_change_pin(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(person),
        FfiConverterString.lower(oldPin),
        FfiConverterString.lower(newPin),$0
    )
}
}

    /**
     * Drops a person's key from this device, for a forgotten PIN. What the key signed stays signed. The
     * office ends it in the roster, and the person makes a new one with `make_person_key`.
     *
     * # Errors
     * - `NoKey`: the person has no key on this device.
     * - `NotStored`: the disk failed or is full. The key is then still here.
     */
open func forgetPersonKey(person: String)throws   {try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_forget_person_key(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(person),$0
    )
}
}

    /**
     * Hands over the random secret that the caller keeps beside the device's key: exactly 32 bytes, made
     * once with `new_key`, and kept apart from the book's own storage. Call this after every `open`. Without
     * it no person's key can be made or unlocked; with another one no PIN is right. The secret stays in
     * memory only.
     *
     * # Errors
     * - `WrongCall`: the secret has not 32 bytes.
     */
open func keepBeside(secret: Data)throws   {try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_keep_beside(
            self.uniffiCloneHandle(),
        FfiConverterData.lower(secret),$0
    )
}
}

    /**
     * Forgets whose key is unlocked: the shift is over, or the device changes hands. Never fails.
     */
open func lockPeople()  {try! rustCall() {
    uniffi_farsiding_bindings_fn_method_book_lock_people(
            self.uniffiCloneHandle(),$0
    )
}
}

    /**
     * Makes a key for the person with the code `person`, under the PIN `pin` of six decimal digits, and says
     * so in the roster. The key is unlocked then. Returns its fingerprint for the telephone: 16 decimal
     * digits in four groups. Takes about a second and 64 MiB, in which every other call on this book waits.
     *
     * # Errors
     * - `WeakPin`: the PIN has not six digits, or is among the first that anybody tries.
     * - `HasKey`: the person has a key on this device already.
     * - `NotEnrolled`: no office has enrolled this device.
     * - `WrongCall`: `keep_beside` was not called, or `person` is blank.
     * - `Refused`: `person` is no code, or this device may not say so.
     * - `NotStored`: the disk failed or is full. No key was made.
     */
open func makePersonKey(person: String, pin: String)throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_make_person_key(
            self.uniffiCloneHandle(),
        FfiConverterString.lower(person),
        FfiConverterString.lower(pin),$0
    )
})
}

    /**
     * Who holds this device now, whose keys live here, and what the organisation decided. JSON: `{holder:
     * {person, how, since, until} or null, keys: [{person, key, fingerprint, tries_left, wait_until,
     * confirmed, ended}], rules: {operator_rights?, unlocking, signature_required?}, can_make}`.
     *
     * `how` and `unlocking` are `act` (for one act, within 5 minutes) or `shift` (12 hours at most).
     * `since`, `until` and `wait_until` are milliseconds since 1970-01-01 UTC by this device's clock;
     * `wait_until` may be null. `key` has 64 hexadecimal digits, `fingerprint` 16 decimal digits in four
     * groups. `tries_left` is a count from 0 to 10. `can_make` says whether `make_person_key` can succeed:
     * the device is enrolled, and `keep_beside` was called.
     *
     * # Errors
     * - `NotStored`: the disk cannot be read.
     */
open func peopleHere()throws  -> String  {
    return try  FfiConverterString.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_method_book_people_here(
            self.uniffiCloneHandle(),$0
    )
})
}

    /**
     * Unlocks a person's key with its PIN of six decimal digits, for the next act that binds or for the
     * shift, as the organisation decided. Whoever held the device before holds it no more. Takes about a
     * second and 64 MiB, in which every other call on this book waits. Tries are counted on the disk before
     * they are made.
     *
     * # Errors
     * - `WrongPin`: with the number of tries left, of 10. Whoever was unlocked stays so.
     * - `PinWaits`: with the time from which the next try is allowed; from the fifth wrong try on.
     * - `KeyLocked`: ten wrong tries were made. The key is gone from this device.
     * - `KeyEnded`: the office ended the key.
     * - `NoKey`: the person has no key on this device.
     * - `WeakPin`: the PIN has not six digits; no try was counted.
     * - `WrongCall`: `keep_beside` was not called.
     * - `Refused`: what was kept of the key is damaged.
     * - `NotStored`: the disk failed or is full.
     */
open func unlockPerson(person: String, pin: String)throws   {try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
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
 * One reading of a text that somebody typed as an amount.
 */
public struct AmountReading: Equatable, Hashable {
    /**
     * The amount as it goes into a statement, as JSON: `{text, unit, value}`. Its text is exactly what was
     * typed.
     */
    public var amount: String
    /**
     * The number, in `unit`. It is finite and within what that unit can measure at all.
     */
    public var value: Double
    /**
     * The unit's symbol: the one in the text, or else the one that was asked for.
     */
    public var unit: String
    /**
     * The number with its unit, for people: `32650 gal`.
     */
    public var shown: String

    // Default memberwise initializers are never public by default, so we
    // declare one manually.
    public init(
        /**
         * The amount as it goes into a statement, as JSON: `{text, unit, value}`. Its text is exactly what was
         * typed.
         */amount: String,
        /**
         * The number, in `unit`. It is finite and within what that unit can measure at all.
         */value: Double,
        /**
         * The unit's symbol: the one in the text, or else the one that was asked for.
         */unit: String,
        /**
         * The number with its unit, for people: `32650 gal`.
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
 * What a typed text can mean: one amount, or two to choose from, or none and why.
 */
public struct ReadAmount: Equatable, Hashable {
    /**
     * Exactly what was typed.
     */
    public var text: String
    /**
     * The readings, at most two. There is one where the text says one thing; two, first with decimals and
     * then with thousands, where only whoever typed the text knows; none where the text is no amount.
     */
    public var readings: [AmountReading]
    /**
     * Why the text is not one amount, by a stable name: `nothing`, `not_a_number`, `trailing_text`,
     * `two_readings`, `cannot_be` (no instrument shows such a number), `other_kind` (the unit measures
     * something else). Empty where the text is one amount.
     */
    public var refused: String
    /**
     * The same in an English sentence, and in the browser, which has words of its own, the stable name
     * again; empty where the text is one amount.
     */
    public var why: String

    // Default memberwise initializers are never public by default, so we
    // declare one manually.
    public init(
        /**
         * Exactly what was typed.
         */text: String,
        /**
         * The readings, at most two. There is one where the text says one thing; two, first with decimals and
         * then with thousands, where only whoever typed the text knows; none where the text is no amount.
         */readings: [AmountReading],
        /**
         * Why the text is not one amount, by a stable name: `nothing`, `not_a_number`, `trailing_text`,
         * `two_readings`, `cannot_be` (no instrument shows such a number), `other_kind` (the unit measures
         * something else). Empty where the text is one amount.
         */refused: String,
        /**
         * The same in an English sentence, and in the browser, which has words of its own, the stable name
         * again; empty where the text is one amount.
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
 * What went wrong, in kinds that say what the caller can do about it. No kind means that anything confirmed
 * was lost.
 *
 * Decide by the kind, and show `says` in the person's language. `why` is an English text for the log and the support
 * call, never the only thing shown.
 */
public enum FarsidingError: Swift.Error, Equatable, Hashable, Foundation.LocalizedError {



    /**
     * Another tab, window or program holds the book. Use that one, or close it and try again.
     */
    case OpenElsewhere(
        /**
         * What the storage said.
         */why: String,
        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */says: String
    )
    /**
     * This place cannot keep records: a private window, no such folder, no permission. Use another place.
     */
    case NoStorage(
        /**
         * What the storage said.
         */why: String,
        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */says: String
    )
    /**
     * The disk failed or is full, and the entries that this call was to make were not made. Free some space,
     * then make the call again.
     */
    case NotStored(
        /**
         * What the storage said.
         */why: String,
        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */says: String
    )
    /**
     * What was handed over breaks a rule, or is not what it claims to be, and was refused whole. Show the
     * reason; the same call would be refused again.
     */
    case Refused(
        /**
         * Which rule it broke.
         */why: String,
        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */says: String
    )
    /**
     * What answered is not the office's server: a login page in between, or another address. Try again
     * later, with another network.
     */
    case NotTheOffice(
        /**
         * What was wrong with the answer.
         */why: String,
        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */says: String
    )
    /**
     * No office has enrolled this device yet. Records are kept, and nothing is sent: enrol the device first.
     */
    case NotEnrolled(
        /**
         * What was asked for.
         */why: String,
        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */says: String
    )
    /**
     * The PIN is not six digits, or is among the first that anybody tries. Ask for another one.
     */
    case WeakPin(
        /**
         * What is wrong with the PIN.
         */why: String,
        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */says: String
    )
    /**
     * The PIN was wrong. Ask again and say how many tries are left, or let the person say that it is
     * forgotten.
     */
    case WrongPin(
        /**
         * What happened, for the log.
         */why: String,
        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */says: String,
        /**
         * How many tries are left before the key is locked on this device for good: 1 to 9.
         */left: UInt32
    )
    /**
     * Too many wrong PINs were tried, and this try was not made. Wait until the time given.
     */
    case PinWaits(
        /**
         * What happened, for the log.
         */why: String,
        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */says: String,
        /**
         * From when the next try is allowed: milliseconds since 1970-01-01 UTC by this device's clock.
         */until: Int64
    )
    /**
     * Ten wrong PINs were tried, and the key is gone from this device. Tell the office, then make a new key.
     */
    case KeyLocked(
        /**
         * What happened, for the log.
         */why: String,
        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */says: String
    )
    /**
     * The office ended the key. Make a new one.
     */
    case KeyEnded(
        /**
         * What happened, for the log.
         */why: String,
        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */says: String
    )
    /**
     * The person has no key on this device. Make one, or go on without: the device alone then names the
     * person.
     */
    case NoKey(
        /**
         * Whose key was asked for, for the log.
         */why: String,
        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */says: String
    )
    /**
     * The person has a key on this device already. Unlock it, or drop it where its PIN is forgotten.
     */
    case HasKey(
        /**
         * Whose key it is, for the log.
         */why: String,
        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */says: String
    )
    /**
     * The calling program made a mistake, such as a key of the wrong length. Mend the program.
     */
    case WrongCall(
        /**
         * Which argument was wrong, and what it should have been.
         */why: String,
        /**
         * What to tell the person, as the JSON of a message: an id of the catalogues and its arguments.
         */says: String
    )






    public var errorDescription: String? {
        String(reflecting: self)
    }

}

#if compiler(>=6)
extension FarsidingError: Sendable {}
#endif

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public struct FfiConverterTypeFarsidingError: FfiConverterRustBuffer {
    typealias SwiftType = FarsidingError

    public static func read(from buf: inout (data: Data, offset: Data.Index)) throws -> FarsidingError {
        let variant: Int32 = try readInt(&buf)
        switch variant {




        case 1: return .OpenElsewhere(
            why: try FfiConverterString.read(from: &buf),
            says: try FfiConverterString.read(from: &buf)
            )
        case 2: return .NoStorage(
            why: try FfiConverterString.read(from: &buf),
            says: try FfiConverterString.read(from: &buf)
            )
        case 3: return .NotStored(
            why: try FfiConverterString.read(from: &buf),
            says: try FfiConverterString.read(from: &buf)
            )
        case 4: return .Refused(
            why: try FfiConverterString.read(from: &buf),
            says: try FfiConverterString.read(from: &buf)
            )
        case 5: return .NotTheOffice(
            why: try FfiConverterString.read(from: &buf),
            says: try FfiConverterString.read(from: &buf)
            )
        case 6: return .NotEnrolled(
            why: try FfiConverterString.read(from: &buf),
            says: try FfiConverterString.read(from: &buf)
            )
        case 7: return .WeakPin(
            why: try FfiConverterString.read(from: &buf),
            says: try FfiConverterString.read(from: &buf)
            )
        case 8: return .WrongPin(
            why: try FfiConverterString.read(from: &buf),
            says: try FfiConverterString.read(from: &buf),
            left: try FfiConverterUInt32.read(from: &buf)
            )
        case 9: return .PinWaits(
            why: try FfiConverterString.read(from: &buf),
            says: try FfiConverterString.read(from: &buf),
            until: try FfiConverterInt64.read(from: &buf)
            )
        case 10: return .KeyLocked(
            why: try FfiConverterString.read(from: &buf),
            says: try FfiConverterString.read(from: &buf)
            )
        case 11: return .KeyEnded(
            why: try FfiConverterString.read(from: &buf),
            says: try FfiConverterString.read(from: &buf)
            )
        case 12: return .NoKey(
            why: try FfiConverterString.read(from: &buf),
            says: try FfiConverterString.read(from: &buf)
            )
        case 13: return .HasKey(
            why: try FfiConverterString.read(from: &buf),
            says: try FfiConverterString.read(from: &buf)
            )
        case 14: return .WrongCall(
            why: try FfiConverterString.read(from: &buf),
            says: try FfiConverterString.read(from: &buf)
            )

         default: throw UniffiInternalError.unexpectedEnumCase
        }
    }

    public static func write(_ value: FarsidingError, into buf: inout [UInt8]) {
        switch value {





        case let .OpenElsewhere(why,says):
            writeInt(&buf, Int32(1))
            FfiConverterString.write(why, into: &buf)
            FfiConverterString.write(says, into: &buf)


        case let .NoStorage(why,says):
            writeInt(&buf, Int32(2))
            FfiConverterString.write(why, into: &buf)
            FfiConverterString.write(says, into: &buf)


        case let .NotStored(why,says):
            writeInt(&buf, Int32(3))
            FfiConverterString.write(why, into: &buf)
            FfiConverterString.write(says, into: &buf)


        case let .Refused(why,says):
            writeInt(&buf, Int32(4))
            FfiConverterString.write(why, into: &buf)
            FfiConverterString.write(says, into: &buf)


        case let .NotTheOffice(why,says):
            writeInt(&buf, Int32(5))
            FfiConverterString.write(why, into: &buf)
            FfiConverterString.write(says, into: &buf)


        case let .NotEnrolled(why,says):
            writeInt(&buf, Int32(6))
            FfiConverterString.write(why, into: &buf)
            FfiConverterString.write(says, into: &buf)


        case let .WeakPin(why,says):
            writeInt(&buf, Int32(7))
            FfiConverterString.write(why, into: &buf)
            FfiConverterString.write(says, into: &buf)


        case let .WrongPin(why,says,left):
            writeInt(&buf, Int32(8))
            FfiConverterString.write(why, into: &buf)
            FfiConverterString.write(says, into: &buf)
            FfiConverterUInt32.write(left, into: &buf)


        case let .PinWaits(why,says,until):
            writeInt(&buf, Int32(9))
            FfiConverterString.write(why, into: &buf)
            FfiConverterString.write(says, into: &buf)
            FfiConverterInt64.write(until, into: &buf)


        case let .KeyLocked(why,says):
            writeInt(&buf, Int32(10))
            FfiConverterString.write(why, into: &buf)
            FfiConverterString.write(says, into: &buf)


        case let .KeyEnded(why,says):
            writeInt(&buf, Int32(11))
            FfiConverterString.write(why, into: &buf)
            FfiConverterString.write(says, into: &buf)


        case let .NoKey(why,says):
            writeInt(&buf, Int32(12))
            FfiConverterString.write(why, into: &buf)
            FfiConverterString.write(says, into: &buf)


        case let .HasKey(why,says):
            writeInt(&buf, Int32(13))
            FfiConverterString.write(why, into: &buf)
            FfiConverterString.write(says, into: &buf)


        case let .WrongCall(why,says):
            writeInt(&buf, Int32(14))
            FfiConverterString.write(why, into: &buf)
            FfiConverterString.write(says, into: &buf)

        }
    }
}


#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public func FfiConverterTypeFarsidingError_lift(_ buf: RustBuffer) throws -> FarsidingError {
    return try FfiConverterTypeFarsidingError.lift(buf)
}

#if swift(>=5.8)
@_documentation(visibility: private)
#endif
public func FfiConverterTypeFarsidingError_lower(_ value: FarsidingError) -> RustBuffer {
    return FfiConverterTypeFarsidingError.lower(value)
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
 * Computes one formula. `formula` is its name, `line` one JSON object with its inputs, as `farsiding calc`
 * takes it: `calculate("ctl", "{\"temp_f\": 80, \"rd60\": 0.51}")`. `formulas` lists names, inputs, units
 * and ranges. Every number's key may be followed by the same key with `_pm`: its ± at 95 %, in the same
 * unit.
 *
 * Returns one JSON object: `{ok: true, value, unit, plus_minus, formula, source, findings, …}` with
 * `plus_minus` at 95 % in the unit of `value`, or `{ok: false, error, message}`. Never fails: what is wrong
 * with the line is said there.
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
 * Every formula, as a JSON list of `{name, about, unit, inputs, method, source, wrong_when}`. An input of
 * the kind `number` is `{key, about, kind, name, unit, low, high, presumed_half_width, required, default?}`:
 * `low` and `high` are its range in `unit`. Never fails.
 */
public func formulas() -> String  {
    return try!  FfiConverterString.lift(try! rustCall() {
    uniffi_farsiding_bindings_fn_func_formulas($0
    )
})
}
/**
 * Reads a text that somebody typed where an amount in `unit` is asked for. A text that is no amount is no
 * error: the answer says so, and the text is kept.
 *
 * `unit` is a unit's symbol, such as `psi` (gauge), `psia`, `°F`, `gal`, `lb`, `in` or `%`. Where the text
 * names another unit of the same kind, that unit is taken: `8 bar` for `psi`. `decimal_mark` is `.` or `,`,
 * the mark that is usual where the text was typed. Without it a text that says two things (`32,650`,
 * `1.234`) is answered with both.
 *
 * # Errors
 * - `WrongCall`: `unit` is no symbol that the core knows (`why` lists all), or `decimal_mark` is another
 * mark.
 */
public func readAmount(text: String, unit: String, decimalMark: String?)throws  -> ReadAmount  {
    return try  FfiConverterTypeReadAmount_lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_func_read_amount(
        FfiConverterString.lower(text),
        FfiConverterString.lower(unit),
        FfiConverterOptionString.lower(decimalMark),$0
    )
})
}
/**
 * A new secret of 32 random bytes: a device's key for `Book::open`, or the secret for `keep_beside`. The
 * caller keeps it where the platform keeps secrets. Whoever loses a device's key cannot open its book as
 * that device again.
 *
 * # Errors
 * - `NoStorage`: the platform has no randomness.
 */
public func newKey()throws  -> Data  {
    return try  FfiConverterData.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_func_new_key($0
    )
})
}
/**
 * Returns where `pin` may be chosen as a PIN: six decimal digits, not one digit or one pair or triple over
 * and over, and no run up or down.
 *
 * # Errors
 * - `WeakPin`: the PIN is none of these; `why` says which rule it broke.
 */
public func pinMayBeChosen(pin: String)throws   {try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_func_pin_may_be_chosen(
        FfiConverterString.lower(pin),$0
    )
}
}
/**
 * The key of 32 bytes that a shell seals its storage under, where a PIN opens the phone. It is derived by
 * Argon2id with 64 MiB and three passes, which takes about a second.
 *
 * `pin` has six decimal digits, `beside` is the secret of 32 bytes that `keep_beside` takes, and `salt` has
 * 16 random bytes that are kept with what is sealed.
 *
 * # Errors
 * - `WeakPin`: the PIN has not six digits.
 * - `WrongCall`: `beside` has not 32 bytes, or `salt` has not 16.
 */
public func pinStorageKey(pin: String, beside: Data, salt: Data)throws  -> Data  {
    return try  FfiConverterData.lift(try rustCallWithError(FfiConverterTypeFarsidingError_lift) {
    uniffi_farsiding_bindings_fn_func_pin_storage_key(
        FfiConverterString.lower(pin),
        FfiConverterData.lower(beside),
        FfiConverterData.lower(salt),$0
    )
})
}
/**
 * The version of the core as `major.minor.patch`, for an about page and for support. Never fails.
 */
public func coreVersion() -> String  {
    return try!  FfiConverterString.lift(try! rustCall() {
    uniffi_farsiding_bindings_fn_func_core_version($0
    )
})
}
/**
 * Makes `folder` ready for books. Wait for it before `Book::open`; calling it again changes nothing.
 *
 * Natively `folder` is a path, and the folder is made with those above it. In a browser `folder` is a folder
 * of the origin's private file system; the call must be made in a dedicated worker and takes hold of that
 * folder, which one worker at a time can do.
 *
 * # Errors
 * - `NoStorage`: the folder cannot be made, or the browser keeps nothing durable (a private window).
 * - `OpenElsewhere`: another tab holds the folder (browsers only).
 * - `NotStored`: the browser gives no more room (browsers only).
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
            errorHandler: FfiConverterTypeFarsidingError_lift
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
    if (uniffi_farsiding_bindings_checksum_func_calculate() != 12748) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_formulas() != 56892) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_read_amount() != 17718) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_new_key() != 16597) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_pin_may_be_chosen() != 56356) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_pin_storage_key() != 29291) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_core_version() != 30956) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_func_prepare_storage() != 34496) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_append() != 19026) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_device() != 27345) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_drafts() != 57336) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_find() != 23673) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_fit_to_unload() != 9605) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_new_site() != 29822) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_open_visit() != 6418) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_over() != 58626) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_override_items() != 54076) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_pass_over() != 43011) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_people() != 50066) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_preview() != 9245) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_record_step() != 26513) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_release() != 4878) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_set_draft() != 10070) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_settle() != 19825) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_show() != 38547) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_sites() != 9170) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_standing() != 15573) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_status() != 58531) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_visit() != 63855) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_visits() != 6735) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_withdraw() != 14647) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_carried_photo() != 1338) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_carry_in() != 60974) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_carry_out() != 62352) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_carry_photo() != 18568) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_photo_taken() != 61104) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_photos_of() != 21378) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_photos_waiting() != 19255) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_enrol_request() != 4152) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_enrolled() != 19958) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_enrolled_with() != 24574) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_log_receive() != 60625) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_log_request() != 54498) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_pass_request() != 63888) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_sync_receive() != 34293) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_sync_request() != 1845) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_sync_start() != 4745) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_binds() != 7415) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_change_pin() != 7098) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_forget_person_key() != 2692) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_keep_beside() != 5762) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_lock_people() != 8337) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_make_person_key() != 30723) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_people_here() != 15443) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_method_book_unlock_person() != 22959) {
        return InitializationResult.apiChecksumMismatch
    }
    if (uniffi_farsiding_bindings_checksum_constructor_book_open() != 10423) {
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

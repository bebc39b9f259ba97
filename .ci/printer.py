"""printer.py RASTER PNG...: each page of a PWG Raster file, as libcups reads it, has
the dots of the PNG beside it. Only libcups and zlib are used to read either."""
import ctypes, struct, sys, zlib

cups = ctypes.CDLL("libcups.so.2")
cups.cupsRasterOpen.restype = ctypes.c_void_p
cups.cupsRasterOpen.argtypes = [ctypes.c_int, ctypes.c_int]
cups.cupsRasterReadHeader2.argtypes = [ctypes.c_void_p, ctypes.c_void_p]
cups.cupsRasterReadPixels.argtypes = [ctypes.c_void_p, ctypes.c_void_p, ctypes.c_uint]


def png(name):
    """The lines of a PNG of one bit a dot without interlace: 0 for black."""
    data, at, packed = open(name, "rb").read(), 8, b""
    while at < len(data):
        size, kind = struct.unpack(">I4s", data[at:at + 8])
        body = data[at + 8:at + 8 + size]
        if kind == b"IHDR":
            w, h, depth, colour = struct.unpack(">IIBB", body[:10])
            assert depth == 1, "%s has %d bits a dot" % (name, depth)
        if kind == b"IDAT":
            packed += body
        at += 12 + size
    raw, stride, last, lines = zlib.decompress(packed), (w + 7) // 8, bytearray((w + 7) // 8), []
    for y in range(h):
        kind, line = raw[y * (stride + 1)], bytearray(raw[y * (stride + 1) + 1:(y + 1) * (stride + 1)])
        for x in range(stride):
            a, b, c = (line[x - 1] if x else 0), last[x], (last[x - 1] if x else 0)
            p = a + b - c
            near = min((abs(p - a), 0, a), (abs(p - b), 1, b), (abs(p - c), 2, c))[2]
            line[x] = (line[x] + (0, a, b, (a + b) // 2, near)[kind]) & 255
        lines.append(bytes(line))
        last = line
    return w, h, lines


fd = open(sys.argv[1], "rb")
raster = cups.cupsRasterOpen(fd.fileno(), 0)
assert raster, "libcups does not take it for a raster"
header = ctypes.create_string_buffer(1796)
for name in sys.argv[2:]:
    assert cups.cupsRasterReadHeader2(raster, header) == 1, "there is no page for " + name
    at = lambda n: struct.unpack("=I", header.raw[n:n + 4])[0]
    w, h, lines = png(name)
    dpi, width, high, bits, stride, space = at(276), at(372), at(376), at(388), at(392), at(400)
    assert (width, high, bits, space, stride) == (w, h, 1, 3, (w + 7) // 8), "the page is %d × %d, %d bits, colours %d" % (width, high, bits, space)
    assert dpi == 305, "%d dots an inch" % dpi
    line = ctypes.create_string_buffer(stride)
    for y in range(h):
        assert cups.cupsRasterReadPixels(raster, line, stride) == stride, "line %d is cut off" % y
        ours = bytes(255 - b for b in lines[y])
        if w % 8:
            ours = ours[:-1] + bytes([ours[-1] & (255 << (8 - w % 8)) & 255])
        assert line.raw == ours, "%s differs from the page in line %d" % (name, y)
assert cups.cupsRasterReadHeader2(raster, header) == 0, "there are more pages than pictures"
print("%d pages read by libcups, dot for dot those of the pictures" % len(sys.argv[2:]))

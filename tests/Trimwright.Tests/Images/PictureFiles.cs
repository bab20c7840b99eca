using System.Buffers.Binary;
using System.IO.Compression;
using System.Text;

namespace Trimwright.Tests.Images;

/// <summary>Picture files put together byte by byte, as the standards lay them out, where no encoder at hand writes them.</summary>
internal static class PictureFiles
{
    /// <summary>A PNG of any depth; rows are given without their filter byte.</summary>
    public static byte[] Png(uint width, uint height, byte bitDepth, byte colourType, params byte[][] rows)
    {
        var file = new MemoryStream();
        file.Write([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]);
        var header = new byte[13];
        BinaryPrimitives.WriteUInt32BigEndian(header, width);
        BinaryPrimitives.WriteUInt32BigEndian(header.AsSpan(4), height);
        (header[8], header[9]) = (bitDepth, colourType);
        Chunk(file, "IHDR", header);
        var pixels = new MemoryStream();
        using (var packer = new ZLibStream(pixels, CompressionLevel.Optimal, leaveOpen: true))
        {
            foreach (var row in rows)
            {
                packer.WriteByte(0);
                packer.Write(row);
            }
        }

        Chunk(file, "IDAT", pixels.ToArray());
        Chunk(file, "IEND", []);
        return file.ToArray();
    }

    /// <summary>Puts an Exif segment with an orientation in front of the rest of a JPEG.</summary>
    public static byte[] WithOrientation(byte[] jpeg, byte orientation)
    {
        byte[] exif =
        [
            0xff, 0xe1, 0, 34, .. "Exif\0\0"u8, .. "MM\0*"u8, 0, 0, 0, 8,
            0, 1, 0x01, 0x12, 0, 3, 0, 0, 0, 1, 0, orientation, 0, 0, 0, 0, 0, 0,
        ];
        return [.. jpeg[..2], .. exif, .. jpeg[2..]];
    }

    /// <summary>An animated WebP (RFC 9649) of lossless stills of one size.</summary>
    public static byte[] AnimatedWebP(int width, int height, params byte[][] stills)
    {
        var body = new MemoryStream();
        body.Write("WEBP"u8);
        Riff(body, "VP8X", [0x02, 0, 0, 0, .. Three(width - 1), .. Three(height - 1)]);
        Riff(body, "ANIM", [255, 255, 255, 255, 0, 0]);
        foreach (var still in stills)
        {
            Riff(body, "ANMF", [.. Three(0), .. Three(0), .. Three(width - 1), .. Three(height - 1), .. Three(100), 0, .. BitstreamOf(still)]);
        }

        var file = new MemoryStream();
        Riff(file, "RIFF", body.ToArray());
        return file.ToArray();
    }

    /// <summary>
    /// A baseline JPEG (ITU-T T.81) of one block of 8 x 8 pixels with four flat channels, cyan, magenta, yellow and black, as stored: with
    /// the marker that says they are stored inverted, as printing trade files are.
    /// </summary>
    public static byte[] CmykJpeg(byte c, byte m, byte y, byte k)
    {
        var file = new MemoryStream();
        file.Write([0xff, 0xd8]);
        Segment(file, 0xee, [.. "Adobe"u8, 0, 100, 0, 0, 0, 0, 0]);
        Segment(file, 0xdb, [0, .. Enumerable.Repeat((byte)1, 64)]);
        Segment(file, 0xc0, [8, 0, 8, 0, 8, 4, 1, 0x11, 0, 2, 0x11, 0, 3, 0x11, 0, 4, 0x11, 0]);

        // One table for the flat part with the categories 0 to 11, all of four bits; one for the rest whose only code ends the block.
        Segment(file, 0xc4, [0x00, 0, 0, 0, 12, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11]);
        Segment(file, 0xc4, [0x10, 1, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0, 0]);
        Segment(file, 0xda, [4, 1, 0, 2, 0, 3, 0, 4, 0, 0, 63, 0]);
        var bits = new StringBuilder();
        foreach (var channel in new[] { c, m, y, k })
        {
            // The flat part of a block is eight times its level, counted from 128.
            var level = 8 * (channel - 128);
            var size = level == 0 ? 0 : (int)Math.Log2(Math.Abs(level)) + 1;
            bits.Append(Convert.ToString(size, 2).PadLeft(4, '0'));
            if (size > 0)
            {
                bits.Append(Convert.ToString(level > 0 ? level : level + (1 << size) - 1, 2).PadLeft(size, '0'));
            }

            bits.Append('0');
        }

        while (bits.Length % 8 != 0)
        {
            bits.Append('1');
        }

        for (var at = 0; at < bits.Length; at += 8)
        {
            var value = Convert.ToByte(bits.ToString(at, 8), 2);
            file.WriteByte(value);
            if (value == 0xff)
            {
                file.WriteByte(0);
            }
        }

        file.Write([0xff, 0xd9]);
        return file.ToArray();
    }

    private static void Segment(MemoryStream file, byte marker, byte[] data)
    {
        file.Write([0xff, marker, (byte)((data.Length + 2) >> 8), (byte)((data.Length + 2) & 255)]);
        file.Write(data);
    }

    private static byte[] Three(int value) => [(byte)(value & 255), (byte)((value >> 8) & 255), (byte)(value >> 16)];

    // The chunk with the pixels, head and all; a still may have others before it.
    private static byte[] BitstreamOf(byte[] webp)
    {
        var at = 12;
        while (!webp.AsSpan(at).StartsWith("VP8L"u8))
        {
            at += 8 + ((BinaryPrimitives.ReadInt32LittleEndian(webp.AsSpan(at + 4)) + 1) & ~1);
        }

        var length = (BinaryPrimitives.ReadInt32LittleEndian(webp.AsSpan(at + 4)) + 1) & ~1;
        return webp[at..(at + 8 + length)];
    }

    private static void Riff(MemoryStream file, string name, byte[] data)
    {
        file.Write(Encoding.ASCII.GetBytes(name));
        var length = new byte[4];
        BinaryPrimitives.WriteInt32LittleEndian(length, data.Length);
        file.Write(length);
        file.Write(data);
        if (data.Length % 2 == 1)
        {
            file.WriteByte(0);
        }
    }

    private static void Chunk(MemoryStream file, string name, byte[] data)
    {
        var number = new byte[4];
        BinaryPrimitives.WriteUInt32BigEndian(number, (uint)data.Length);
        file.Write(number);
        byte[] checkedPart = [.. Encoding.ASCII.GetBytes(name), .. data];
        file.Write(checkedPart);
        BinaryPrimitives.WriteUInt32BigEndian(number, Crc(checkedPart));
        file.Write(number);
    }

    // ISO/IEC 15948, annex D.
    private static uint Crc(byte[] data)
    {
        var crc = uint.MaxValue;
        foreach (var value in data)
        {
            crc ^= value;
            for (var bit = 0; bit < 8; bit++)
            {
                crc = (crc & 1) == 1 ? 0xedb88320 ^ (crc >> 1) : crc >> 1;
            }
        }

        return ~crc;
    }
}

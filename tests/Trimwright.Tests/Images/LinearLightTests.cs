using Trimwright.Images;

namespace Trimwright.Tests.Images;

public class LinearLightTests
{
    // IEC 61966-2-1 computed in floating point: the nearest level, or half a level off at most.
    [Fact]
    public void Every_level_is_that_of_the_standard()
    {
        for (var value = 0; value < 256; value++)
        {
            var coded = value / 255.0;
            var light = coded <= 0.04045 ? coded / 12.92 : Math.Pow((coded + 0.055) / 1.055, 2.4);
            Assert.InRange(LinearLight.LevelOf((byte)value) - (light * 65535), -0.5000001, 0.5000001);
        }
    }

    [Fact]
    public void White_is_white_and_the_three_channels_weigh_as_their_primaries()
    {
        Assert.Equal(LinearLight.White, LinearLight.GreyOf(255, 255, 255));
        Assert.Equal(0, LinearLight.GreyOf(0, 0, 0));
        Assert.Equal(13933, LinearLight.GreyOf(255, 0, 0));
        Assert.Equal(46871, LinearLight.GreyOf(0, 255, 0));
        Assert.Equal(4732, LinearLight.GreyOf(0, 0, 255));
    }
}
